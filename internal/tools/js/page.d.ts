// What the scripts in static/js may count on besides the browser's own: for the
// type checker alone, nothing of it is served.

/** An element of one of our pages. Which kind it is, the template says. */
type PageElement = HTMLInputElement & HTMLDialogElement & HTMLAnchorElement & { ownerSVGElement?: SVGSVGElement };

interface ParentNode {
  querySelector(selectors: `form[${string}]`): HTMLFormElement;
  querySelector(selectors: string): PageElement;
  querySelectorAll(selectors: string): NodeListOf<PageElement>;
}
interface Document {
  getElementById(id: string): PageElement;
}
interface Element {
  closest(selectors: string): PageElement;
}
/** Our handlers stand on elements, and what bubbles to them came from elements. */
interface EventTarget {
  readonly dataset?: DOMStringMap;
  readonly form?: HTMLFormElement;
  id?: string;
  name?: string;
  type?: string;
  value?: any;
  checked?: boolean;
  closest?(selectors: string): PageElement;
  hasAttribute?(name: string): boolean;
  matches?(selectors: string): boolean;
}

interface DocumentEventMap {
  "htmx:beforeRequest": CustomEvent;
  "htmx:afterSwap": CustomEvent;
}

interface Window {
  bw: Bw;
  /** Vendored: see static/vendor. */
  htmx: { ajax(verb: string, path: string, context: object): Promise<void>; trigger(element: Element | string, name: string): void; process(element: Element): void };
}
declare const idb: { openDB(name: string, version: number, callbacks: object): Promise<any> };

/** Where a ball went in an entry: a pocket, off the table, or a place. */
type Fate = { pocket?: string; off?: boolean; x?: number; y?: number };
/** A break that is still being tapped: what sync.d.ts says of one, in the order of taps. */
type Entry = Omit<Partial<BreakContent>, "cue"> & { wing: string; balls: Record<string, Fate>; cue: CueBall };
/** A set and a break as record-store.js keeps them. */
type KeptSet = any;
type KeptBreak = any;
type Place = { x: number; y: number };

/** What the scripts of the page at the table offer one another, by the file that offers it. */
interface Bw {
  // record-words.js
  zone(at: Place, plan: Plan): string;
  pockets: string[];
  pocketWords(pocket: string): string;
  capital(words: string): string;
  wingMade(b: BreakContent, plan: Plan): boolean;
  inWindow(b: BreakContent, plan: Plan): boolean;
  breakWords(b: BreakContent, plan: Plan): string;
  allWords(b: BreakContent, plan: Plan): string;
  counts(breaks: BreakContent[], plan: Plan): { breaks: number; watched: number; wing: number; window: number; scratches: number; dry: number; off: number };
  contentOf(entry: Entry, plan: Plan, number: number, at?: string): string;
  emptyEntry(ask?: WatchList): Entry;
  entryOf(b: BreakContent, plan: Plan): Entry;

  // record-store.js
  onChange(listener: () => void): void;
  newID(): string;
  keep(key: string, value: any): Promise<any>;
  kept(key: string): Promise<any>;
  person(): Promise<string>;
  held(): Promise<any>;
  forget(erased?: string): Promise<any>;
  mySets(): Promise<KeptSet[]>;
  getSet(id: string): Promise<KeptSet>;
  live(breaks: KeptBreak[]): KeptBreak[];
  isUnsent(b: KeptBreak): boolean;
  others(): Promise<any>;
  startSet(set: KeptSet): Promise<any>;
  nextNumber(set: KeptSet): number;
  /** Whether two contents say the same of a break, whatever its number and time. */
  sameTaps(a: string, b: string): boolean;
  /** base is the revision that a change began from. */
  saveBreak(draft: { setID: string; id: string; edit: boolean; base?: number }, make: (number: number, at: string) => string): Promise<KeptBreak>;
  deleteBreak(setID: string, id: string, reason: string): Promise<any>;
  undo(setID: string): Promise<any>;
  keepDraft(setID: string, draft: any): Promise<any>;
  draft(setID: string): Promise<any>;
  closeSet(id: string): Promise<any>;
  reopenSet(id: string): Promise<any>;
  discardSet(id: string): Promise<any>;
  moveSet(id: string, to: KeptSet): Promise<any>;
  isStuck(b: KeptBreak, set: KeptSet): boolean;
  stuck(set: KeptSet): KeptBreak[];
  stuckWhy(set: KeptSet): string;
  putElsewhere(id: string, set: KeptSet): Promise<string>;
  letStuckGo(id: string): Promise<any>;
  addNote(id: string, text: string): Promise<any>;
  noteOf(id: string): Promise<any>;
  renumber(sets: any, breaks: any, b: KeptBreak, there: any): Promise<KeptBreak>;
  settle(id: string, choice: string): Promise<any>;
  write<T>(work: (sets: any, breaks: any, kept: any) => Promise<T> | T): Promise<T>;

  // record-queue.js
  state: { unsent: number; trouble: string; clockOff: boolean; waiting?: boolean; clashes?: KeptBreak[]; stuck?: KeptBreak[] };
  itemsOf(set: KeptSet): any[];
  sendStraight(set: KeptSet, id: string, content: string): Promise<any>;
  exchange(): Promise<any>;
  recount(): Promise<any>;
  stateWords(): string;

  // record-phone.js, record-picture.js, record-tap.js
  home(place: Element, words: any): Promise<any>;
  table(place: Element, cloth: any, name?: string): any;
  marks(svg: any, plan: Plan, marks: any, scale?: number): void;
  pointOf(svg: any, clientX: number, clientY: number): Place;
  onCloth(at: Place, plan: Plan): Place;
  meant(svg: any, plan: Plan, at: Place, reach: number): any;
  loupe(place: Element, svg: any, at: Place): void;
  tap(place: HTMLElement, loupe: HTMLElement, ui: any): void;

  // record-details.js, record-list.js, record-entry.js
  speedOf(inches: number, frames: number, fps: number): number;
  speedWords(mph: number): string;
  details: Record<string, any>;
  countWords(breaks: KeptBreak[], plan: Plan): any;
  list(place: Element, breaks: KeptBreak[], plan: Plan, open: any): void;
  spread(place: Element, cloth: any, breaks: KeptBreak[], plan: Plan): void;
  spreadKey: string;
  entry: Record<string, any>;

  // leave.js, record-leave.js
  levels: Record<string, number>;
  findShots(leave: any): { ball: number; shot: string; certain: boolean; shots: any[] };
  leaveStep: Record<string, any>;

  // record-rest.js
  rest(seconds: number): void;
  swapRest(): void;

  // record-ways.js, record-set.js
  ways: { start(host: any): void };
  whole: { start(host: any): void };
}
