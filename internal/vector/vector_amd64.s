#include "textflag.h"

// Each loop does with AVX2 what its namesake in one_by_one.go does, with the same
// roundings: products and sums apart, never fused.

DATA constants<>+0(SB)/4, $60.0           // mostExponent
DATA constants<>+4(SB)/4, $-60.0
DATA constants<>+8(SB)/4, $9.0            // flat
DATA constants<>+12(SB)/4, $-9.0
DATA constants<>+16(SB)/4, $1.442695040888963
DATA constants<>+20(SB)/4, $12582912.0    // noFraction
DATA constants<>+24(SB)/4, $0.6931471805599453
DATA constants<>+28(SB)/4, $0.041666666666666664
DATA constants<>+32(SB)/4, $0.16666666666666666
DATA constants<>+36(SB)/4, $0.5
DATA constants<>+40(SB)/4, $1.0
DATA constants<>+44(SB)/4, $2.0
DATA constants<>+48(SB)/4, $127
DATA constants<>+52(SB)/4, $0x3f3504f3    // rootOfHalf
DATA constants<>+56(SB)/4, $0x7fffff      // fraction
DATA constants<>+60(SB)/4, $7.0376836292e-2
DATA constants<>+64(SB)/4, $-1.1514610310e-1
DATA constants<>+68(SB)/4, $1.1676998740e-1
DATA constants<>+72(SB)/4, $-1.2420140846e-1
DATA constants<>+76(SB)/4, $1.4249322787e-1
DATA constants<>+80(SB)/4, $-1.6668057665e-1
DATA constants<>+84(SB)/4, $2.0000714765e-1
DATA constants<>+88(SB)/4, $-2.4999993993e-1
DATA constants<>+92(SB)/4, $3.3333331174e-1
DATA constants<>+96(SB)/4, $-2.12194440e-4
DATA constants<>+100(SB)/4, $0.693359375
GLOBL constants<>(SB), RODATA|NOPTR, $104

// func addProducts32(sums, rows, factors *float32, rowBytes, factorBytes, count int)
TEXT ·addProducts32(SB), NOSPLIT, $0-48
	MOVQ sums+0(FP), DI
	MOVQ rows+8(FP), SI
	MOVQ factors+16(FP), DX
	MOVQ rowBytes+24(FP), R8
	MOVQ factorBytes+32(FP), R9
	MOVQ count+40(FP), CX
	VMOVUPS (DI), Y0
	VMOVUPS 32(DI), Y1
	VMOVUPS 64(DI), Y2
	VMOVUPS 96(DI), Y3

row:
	VBROADCASTSS (DX), Y4
	VMULPS (SI), Y4, Y5
	VMULPS 32(SI), Y4, Y6
	VMULPS 64(SI), Y4, Y7
	VMULPS 96(SI), Y4, Y8
	VADDPS Y5, Y0, Y0
	VADDPS Y6, Y1, Y1
	VADDPS Y7, Y2, Y2
	VADDPS Y8, Y3, Y3
	ADDQ R8, SI
	ADDQ R9, DX
	DECQ CX
	JNZ row

	VMOVUPS Y0, (DI)
	VMOVUPS Y1, 32(DI)
	VMOVUPS Y2, 64(DI)
	VMOVUPS Y3, 96(DI)
	VZEROUPPER
	RET

// func addProducts8(sums, rows, factors *float32, rowBytes, factorBytes, count int)
TEXT ·addProducts8(SB), NOSPLIT, $0-48
	MOVQ sums+0(FP), DI
	MOVQ rows+8(FP), SI
	MOVQ factors+16(FP), DX
	MOVQ rowBytes+24(FP), R8
	MOVQ factorBytes+32(FP), R9
	MOVQ count+40(FP), CX
	VMOVUPS (DI), Y0

row:
	VBROADCASTSS (DX), Y4
	VMULPS (SI), Y4, Y5
	VADDPS Y5, Y0, Y0
	ADDQ R8, SI
	ADDQ R9, DX
	DECQ CX
	JNZ row

	VMOVUPS Y0, (DI)
	VZEROUPPER
	RET

// expLoad puts what exp needs into Y7 to Y14.
#define expLoad \
	VBROADCASTSS constants<>+16(SB), Y7 \
	VBROADCASTSS constants<>+20(SB), Y8 \
	VBROADCASTSS constants<>+24(SB), Y9 \
	VBROADCASTSS constants<>+28(SB), Y10 \
	VBROADCASTSS constants<>+32(SB), Y11 \
	VBROADCASTSS constants<>+36(SB), Y12 \
	VBROADCASTSS constants<>+40(SB), Y13 \
	VPBROADCASTD constants<>+48(SB), Y14

// expOfY0 replaces Y0 by its exponential; it takes Y1 to Y3.
#define expOfY0 \
	VMULPS Y7, Y0, Y1 \
	VADDPS Y8, Y1, Y1 \
	VSUBPS Y8, Y1, Y2 \
	VMULPS Y9, Y2, Y2 \
	VSUBPS Y2, Y0, Y0 \
	VPADDD Y14, Y1, Y1 \
	VPSLLD $23, Y1, Y1 \
	VMULPS Y10, Y0, Y3 \
	VADDPS Y11, Y3, Y3 \
	VMULPS Y3, Y0, Y3 \
	VADDPS Y12, Y3, Y3 \
	VMULPS Y3, Y0, Y3 \
	VADDPS Y13, Y3, Y3 \
	VMULPS Y3, Y0, Y3 \
	VADDPS Y13, Y3, Y3 \
	VMULPS Y1, Y3, Y0

// func expEights(v *float32, eights int)
TEXT ·expEights(SB), NOSPLIT, $0-16
	MOVQ v+0(FP), DI
	MOVQ eights+8(FP), CX
	VBROADCASTSS constants<>+0(SB), Y4
	VBROADCASTSS constants<>+4(SB), Y5
	expLoad

eight:
	VMOVUPS (DI), Y0
	VMINPS Y4, Y0, Y0
	VMAXPS Y5, Y0, Y0
	expOfY0
	VMOVUPS Y0, (DI)
	ADDQ $32, DI
	DECQ CX
	JNZ eight

	VZEROUPPER
	RET

// logTerm makes Y2, the sum so far, Y2·Y1 and a constant.
#define logTerm(at) \
	VBROADCASTSS constants<>+at(SB), Y4 \
	VMULPS Y1, Y2, Y2 \
	VADDPS Y4, Y2, Y2

// func logEights(v *float32, eights int)
TEXT ·logEights(SB), NOSPLIT, $0-16
	MOVQ v+0(FP), DI
	MOVQ eights+8(FP), CX
	VPBROADCASTD constants<>+52(SB), Y8
	VPBROADCASTD constants<>+56(SB), Y9
	VBROADCASTSS constants<>+40(SB), Y10
	VBROADCASTSS constants<>+60(SB), Y11
	VBROADCASTSS constants<>+96(SB), Y12
	VBROADCASTSS constants<>+36(SB), Y13
	VBROADCASTSS constants<>+100(SB), Y14

eight:
	VMOVUPS (DI), Y0
	VPSUBD Y8, Y0, Y0
	VPAND Y9, Y0, Y1
	VPADDD Y8, Y1, Y1
	VSUBPS Y10, Y1, Y1
	VPSRAD $23, Y0, Y0
	VCVTDQ2PS Y0, Y0

	VMOVAPS Y11, Y2
	logTerm(64)
	logTerm(68)
	logTerm(72)
	logTerm(76)
	logTerm(80)
	logTerm(84)
	logTerm(88)
	logTerm(92)

	VMULPS Y1, Y1, Y3
	VMULPS Y1, Y2, Y2
	VMULPS Y3, Y2, Y2
	VMULPS Y12, Y0, Y4
	VADDPS Y4, Y2, Y2
	VMULPS Y13, Y3, Y4
	VSUBPS Y4, Y2, Y2
	VADDPS Y2, Y1, Y1
	VMULPS Y14, Y0, Y0
	VADDPS Y0, Y1, Y1

	VMOVUPS Y1, (DI)
	ADDQ $32, DI
	DECQ CX
	JNZ eight

	VZEROUPPER
	RET

// func tanhEights(v *float32, eights int)
TEXT ·tanhEights(SB), NOSPLIT, $0-16
	MOVQ v+0(FP), DI
	MOVQ eights+8(FP), CX
	VBROADCASTSS constants<>+8(SB), Y4
	VBROADCASTSS constants<>+12(SB), Y5
	VBROADCASTSS constants<>+44(SB), Y6
	expLoad

eight:
	VMOVUPS (DI), Y0
	VMINPS Y4, Y0, Y0
	VMAXPS Y5, Y0, Y0
	VMULPS Y6, Y0, Y0
	expOfY0
	VADDPS Y13, Y0, Y0
	VDIVPS Y0, Y6, Y0
	VSUBPS Y0, Y13, Y0
	VMOVUPS Y0, (DI)
	ADDQ $32, DI
	DECQ CX
	JNZ eight

	VZEROUPPER
	RET

// func divideEights(v, by *float32, eights int)
TEXT ·divideEights(SB), NOSPLIT, $0-24
	MOVQ v+0(FP), DI
	MOVQ by+8(FP), SI
	MOVQ eights+16(FP), CX

eight:
	VMOVUPS (DI), Y0
	VDIVPS (SI), Y0, Y0
	VMOVUPS Y0, (DI)
	ADDQ $32, DI
	ADDQ $32, SI
	DECQ CX
	JNZ eight

	VZEROUPPER
	RET
