// What the server puts above the service worker, and which kind of worker the
// script's events belong to.
declare const version: string;
declare const files: string[];
declare const finder: string;

interface WorkerGlobalScopeEventMap {
  install: ExtendableEvent;
  activate: ExtendableEvent;
  fetch: FetchEvent;
}
/** A worker is kept alive while it answers a message. */
interface MessageEvent<T> {
  waitUntil(work: Promise<any>): void;
}
declare function skipWaiting(): Promise<void>;
declare const clients: Clients;
