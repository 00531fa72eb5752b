// What the scripts in static/js may count on besides the browser's own: for the
// type checker alone, nothing of it is served.

/** An element of one of our pages, within it. Which kind it is, the template says. */
type PageElement = HTMLInputElement & HTMLDialogElement & HTMLAnchorElement & { ownerSVGElement: SVGSVGElement; parentElement: PageElement; parentNode: ParentNode };

interface ParentNode {
  querySelector(selectors: `form[${string}]`): HTMLFormElement;
  querySelector(selectors: string): PageElement;
  querySelectorAll(selectors: string): NodeListOf<PageElement>;
}
interface SVGGraphicsElement {
  /** Of a picture that is shown. */
  getScreenCTM(): DOMMatrix;
}
interface Document {
  getElementById(id: string): PageElement;
}
interface Element {
  closest(selectors: string): PageElement;
}
/** Our handlers stand on elements, and what bubbles to them came from elements. */
interface EventTarget {
  readonly dataset: DOMStringMap;
  readonly form: HTMLFormElement | null;
  id: string;
  name: string;
  type: string;
  value: any;
  checked: boolean;
  closest(selectors: string): PageElement;
  hasAttribute(name: string): boolean;
  matches(selectors: string): boolean;
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

/** Where a ball went in an entry: a pocket, off the table, or a place. */
type Fate = { pocket?: string; off?: boolean; x?: number; y?: number };
/** A break that is still being tapped: what sync.d.ts says of one, in the order of taps. */
type Entry = Omit<Partial<BreakContent>, "cue"> & { wing: string; balls: Record<string, Fate>; cue: CueBall | null; found?: string };
type Place = { x: number; y: number };

/** A set as record-store.js keeps it: as the server gives an open one, with its plan,
 * and with what is still to be sent of it or was refused. */
interface KeptSet extends Omit<HeldSet, "plan" | "breaks"> {
  person: string;
  plan: Plan;
  /** What is trained, for a set that nobody assigned. */
  training?: string;
  startSent: boolean;
  closed: string | null;
  closeSent: boolean;
  /** How many things were done to its breaks. */
  steps: number;
  /** When the server answered last, by this phone's clock. */
  sentAt?: number;
  reopening?: boolean;
  moving?: boolean;
  discarding?: boolean;
  startRefused?: string;
  closeRefused?: string;
  reopenRefused?: string;
  refusedWords?: string;
}
/** A set with its breaks. */
interface WholeSet extends KeptSet { breaks: KeptBreak[] }
/** A set that begins: the store adds what begins the same for all. */
type NewSet = Pick<KeptSet, "id" | "person" | "table" | "label" | "drill" | "planned" | "plan"> & Partial<KeptSet>;
/** What is changed of a set that is moved. */
type Move = Pick<KeptSet, "table" | "label" | "plan"> & Partial<KeptSet>;

/** A break as record-store.js keeps it: its content in the bytes that are sent, a
 * BreakContent, with the revision here and the one that the server is known to have. */
interface KeptBreak {
  id: string;
  set: string;
  person: string;
  number: number;
  revision: number;
  acked: number;
  content: string;
  /** Where it stands among the things done to the set; 0 when it cannot be undone. */
  order: number;
  /** What it was before the last thing done to it. */
  was?: { content: string };
  /** Why it was taken out. */
  deleted?: string;
  refused?: Omit<SyncAnswer, "is">;
  wasNumber?: number;
  ackedAt?: number;
  /** A coach has changed it. */
  coach?: boolean;
}
/** A break that is still being tapped, and the entries before each tap. */
interface Draft { id: string; edit: boolean; base?: number; own?: boolean; entry: Entry; past: Entry[] }
/** A note to the coach about breaks that found no place. */
interface KeptNote { set: string; note: string; text: string; sent?: boolean; why?: string }

/** The phone's database. */
interface ObjectStore<T> {
  get(id: string): Promise<T | undefined>;
  getAll(): Promise<T[]>;
  put(value: T): Promise<unknown>;
  delete(id: string): Promise<void>;
  index(name: string): { getAll(key: string): Promise<T[]>; getAllKeys(key: string): Promise<string[]> };
}
/** What is kept under a name of its own. */
interface KeptValues {
  get(key: "person"): Promise<string | undefined>;
  /** Somebody signed out here, and the server has not heard it. */
  get(key: "signing-out"): Promise<true | undefined>;
  get(key: `held ${string}`): Promise<Held | undefined>;
  get(key: `draft ${string}`): Promise<Draft | undefined>;
  get(key: `note ${string}`): Promise<KeptNote | undefined>;
  put(value: string, key: "person"): Promise<unknown>;
  put(value: true, key: "signing-out"): Promise<unknown>;
  put(value: Held, key: `held ${string}`): Promise<unknown>;
  put(value: Draft, key: `draft ${string}`): Promise<unknown>;
  put(value: KeptNote, key: `note ${string}`): Promise<unknown>;
  delete(key: string): Promise<void>;
}
type Sets = ObjectStore<KeptSet>;
type Breaks = ObjectStore<KeptBreak>;
interface PhoneDatabase {
  get(store: "sets", id: string): Promise<KeptSet | undefined>;
  get(store: "kept", key: string): Promise<any>; // bw.kept says which
  getAll(store: "breaks"): Promise<KeptBreak[]>;
  getAllFromIndex(store: "sets", index: "person", person: string): Promise<KeptSet[]>;
  getAllFromIndex(store: "breaks", index: "set", set: string): Promise<KeptBreak[]>;
  transaction(stores: string[], mode: string, options: object): {
    objectStore(name: "sets"): Sets;
    objectStore(name: "breaks"): Breaks;
    objectStore(name: "kept"): KeptValues;
    done: Promise<void>;
    abort(): void;
  };
  createObjectStore(name: string, options?: object): { createIndex(name: string, path: string): unknown };
}
declare const idb: {
  openDB(name: string, version: number, callbacks: { upgrade(db: PhoneDatabase): void; blocking(now: number, next: number, event: any): void; terminated(): void }): Promise<PhoneDatabase>;
};

/** What a tap on the picture means: as bw.meant says. */
type Meant = Fate & { near?: string };
/** A mark on the picture: a place, a pocket or off the table; of a ball, or of the cue ball. */
type Mark = Fate & { label?: string; ball?: boolean };

/** What the scripts of the page at the table offer one another, by the file that offers it. */
interface Bw {
  // record-element.js
  element(name: string, with_: object): any;
  option(value: string, words: string): HTMLOptionElement;
  onTap(acts: Record<string, () => unknown>): void;

  // record-words.js
  zone(at: Partial<Place>, plan: Plan): string;
  pockets: string[];
  pocketWords(pocket: string): string;
  capital(words: string): string;
  breaks(n: number): string;
  breaksAre(n: number): string;
  wingMade(b: BreakContent, plan: Plan): boolean;
  inWindow(b: Pick<BreakContent, "cue">, plan: Plan): boolean;
  breakWords(b: BreakContent, plan: Plan): string;
  allWords(b: BreakContent, plan: Plan): string;
  counts(breaks: BreakContent[], plan: Plan): { breaks: number; watched: number; wing: number; window: number; scratches: number; dry: number; off: number };
  contentOf(entry: Entry, plan: Plan, number: number, at?: string): string;
  emptyEntry(ask?: WatchList): Entry;
  entryOf(b: BreakContent, plan: Plan): Entry;

  // record-store.js
  onChange(listener: () => void): void;
  newID(): string;
  keep(key: "person", value: string | undefined): Promise<unknown>;
  keep(key: "signing-out", value: true | undefined): Promise<unknown>;
  keep(key: `draft ${string}`, value: Draft): Promise<unknown>;
  kept: KeptValues["get"];
  person(): Promise<string | undefined>;
  held(): Promise<Held | undefined>;
  forget(erased?: string): Promise<void>;
  mySets(): Promise<KeptSet[]>;
  getSet(id: string): Promise<WholeSet | undefined>;
  live<B extends { number: number; deleted?: string }>(breaks: B[]): B[];
  isUnsent(b: KeptBreak): boolean;
  others(): Promise<number>;
  startSet(set: NewSet): Promise<unknown>;
  nextNumber(set: WholeSet): number;
  /** Whether two contents say the same of a break, whatever its number and time. */
  sameTaps(a: string, b: string): boolean;
  /** base is the revision that a change began from. */
  saveBreak(draft: { setID: string; id: string; edit: boolean; base?: number }, make: (number: number, at: string) => string): Promise<KeptBreak>;
  deleteBreak(setID: string, id: string, reason: string): Promise<void>;
  undo(setID: string): Promise<(KeptBreak & { isNew: boolean }) | undefined>;
  keepDraft(setID: string, draft: Draft): Promise<unknown>;
  draft(setID: string): Promise<Draft | undefined>;
  closeSet(id: string): Promise<void>;
  reopenSet(id: string): Promise<void>;
  discardSet(id: string): Promise<unknown>;
  moveSet(id: string, to: Move): Promise<void>;
  isStuck(b: KeptBreak, set: KeptSet): boolean;
  stuck(set: WholeSet): KeptBreak[];
  stuckWhy(set: WholeSet): string;
  putElsewhere(id: string, set: NewSet): Promise<string>;
  letStuckGo(id: string): Promise<void>;
  addNote(id: string, text: string): Promise<unknown>;
  noteOf(id: string): Promise<KeptNote | undefined>;
  renumber(sets: Sets, breaks: Breaks, b: KeptBreak, there: HeldBreak): Promise<KeptBreak>;
  settle(id: string, choice: string): Promise<void>;
  write<T>(work: (sets: Sets, breaks: Breaks, kept: KeptValues) => Promise<T> | T): Promise<T>;

  // record-queue.js
  state: { unsent: number; trouble: string; clockOff: boolean; waiting?: boolean; clashes?: KeptBreak[]; stuck?: KeptBreak[] };
  itemsOf(set: WholeSet): SyncItem[];
  sendStraight(set: WholeSet, id: string, content: string): Promise<boolean>;
  exchange(): Promise<void>;
  askErased(): Promise<void>;
  recount(): Promise<unknown>;
  stateWords(brief?: boolean): string;

  // record-phone.js, record-picture.js, record-tap.js
  home(place: Element, words: string): Promise<void>;
  table(place: Element, cloth: string, name?: string): any;
  marks(svg: any, plan: Plan, marks: Mark[], scale?: number): void;
  pointOf(svg: any, clientX: number, clientY: number): Place;
  onCloth(at: Place, plan: Plan): Place;
  meant(svg: any, plan: Plan, at: Place, reach: number): Meant;
  loupe(place: Element, svg: any, at: Place): void;
  tap(place: HTMLElement, loupe: HTMLElement, ui: any): void;

  // record-details.js, record-list.js, record-entry.js
  speedOf(inches: number, frames: number, fps: number): number;
  speedWords(mph: number): string;
  details: {
    start(host: { entry(): Entry; plan(): Plan; isOther(ball: number): boolean; change(what: (e: Entry) => void): void }): void;
    newPlan(): void;
    settle(): void;
    show(): void;
  };
  countWords(breaks: KeptBreak[], plan: Plan): string;
  list(place: Element, breaks: KeptBreak[], plan: Plan, open: ((b: KeptBreak) => void) | null): void;
  spread(place: Element, cloth: string, breaks: KeptBreak[], plan: Plan): void;
  entry: {
    draft: Draft;
    fresh(): Draft;
    take(draft?: Draft): void;
    adopt(breaks: KeptBreak[]): string;
    touched(): boolean;
    missing(): string;
    undo(): void;
    say(words: string, ready?: boolean): void;
    nudge(): void;
    show(notice: string): void;
    begin(cloth: string): void;
    start(host: { set(): WholeSet; number(): number; changed(): void }): void;
  };

  // leave.js, record-leave.js
  levels: Record<string, number>;
  hardLine: number;
  chanceWords(chance: number): string;
  findShots(leave: any): { ball: number; shot: string; certain: boolean; shots: any[] };
  leaveStep: {
    isOffered(e: Entry, plan: Plan): boolean;
    lowest(e: Entry, plan: Plan): number[];
    next(e: Entry, plan: Plan): number;
    load(): Promise<unknown>;
    fill(e: Entry, plan: Plan): void;
    show(e: Entry, plan: Plan, ball: number): void;
    start(say: (shot: string) => void, back: () => void): void;
  };

  // record-rest.js
  rest(seconds: number): void;
  swapRest(): void;

  // record-ways.js, record-set.js
  ways: { start(host: { set(): WholeSet; done(notice: string): Promise<void> }): void };
  whole: { start(host: { set(): WholeSet; close(): Promise<void> }): void };
}
