// How the service worker answers a page while the phone's storage is slow, full or
// broken: verify's step "scripts" runs it. The worker's own world is made of what node
// has, with storage and server given by each test.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { test } from "node:test";
import vm from "node:vm";

const script = readFileSync(new URL("../../../static/js/record-worker.js", import.meta.url), "utf8");
const never = () => new Promise(() => {});
const fromServer = () => {
  const answer = new Response("new");
  Object.defineProperty(answer, "type", { value: "basic" });
  return answer;
};

// open asks a worker for a page, and gives its words and what the worker does beside it.
const open = async (path, { method = "GET", cache = {}, fetch = async () => fromServer() }) => {
  const listeners = {}, beside = [];
  const location = new URL("https://club.example/");
  const kept = { match: async () => undefined, put: async () => {}, ...cache };
  const world = {
    version: "1", files: [], finder: "", location, URL, Response, fetch, console,
    caches: { open: cache.open ?? (async () => kept), match: cache.ofShell ?? (async () => undefined) },
    addEventListener: (name, listener) => { listeners[name] = listener; },
    setTimeout: (end) => setTimeout(end, 20), // patience ends soon here
  };
  vm.runInNewContext(script, world);
  const request = { method, mode: "navigate", url: new URL(path, location).href };
  let answer;
  listeners.fetch({ request, respondWith: (given) => { answer = given; }, waitUntil: (work) => beside.push(work) });
  const words = await (await answer).text(), to = (await answer).headers.get("Location");
  return { words, to, beside: Promise.all(beside) };
};

test("an answer does not wait until it is kept, and is kept all the same", { timeout: 5000 }, async () => {
  let keep, stored;
  const put = (_request, page) => new Promise((done) => { keep = done; stored = page; });
  const { words, beside } = await open("/today", { cache: { put } });
  assert.equal(words, "new");
  keep();
  await beside;
  assert.equal(await stored.text(), "new");
});

for (const path of ["/today", "/my/sets/1"]) {
  test(`${path} comes while storage does not answer`, { timeout: 5000 }, async () => {
    assert.equal((await open(path, { cache: { open: never } })).words, "new");
  });
  test(`${path} comes late, after patience ended, while storage does not answer`, { timeout: 5000 }, async () => {
    const fetch = () => new Promise((done) => { setTimeout(() => done(fromServer()), 60); });
    assert.equal((await open(path, { cache: { open: never }, fetch })).words, "new");
  });
  test(`${path} comes while storage is broken`, { timeout: 5000 }, async () => {
    assert.equal((await open(path, { cache: { open: () => Promise.reject(new Error("broken")) } })).words, "new");
  });
}

test("an answer comes while storage is full", { timeout: 5000 }, async () => {
  const put = () => Promise.reject(new Error("full"));
  const { words, beside } = await open("/today", { cache: { put, match: async () => new Response("old") } });
  assert.equal(words, "new");
  await beside;
});

test("what is kept is shown when the server is away, in trouble, or silent", { timeout: 5000 }, async () => {
  const match = async () => new Response("old");
  const away = () => Promise.reject(new TypeError("away"));
  const troubled = async () => new Response("trouble", { status: 503 });
  for (const fetch of [away, troubled, never]) assert.equal((await open("/today", { cache: { match }, fetch })).words, "old");
  const ofShell = async () => new Response("table");
  assert.equal((await open("/my/sets/1", { cache: { ofShell }, fetch: away })).words, "table");
  assert.equal((await open("/my/sets/1", { cache: { ofShell }, fetch: troubled })).words, "trouble");
});

test("the page at the table comes from the server when storage is broken", { timeout: 5000 }, async () => {
  assert.equal((await open("/table", { cache: { ofShell: () => Promise.reject(new Error("broken")) } })).words, "new");
});

test("a form that cannot be sent leads to the page that says so", { timeout: 5000 }, async () => {
  const away = () => Promise.reject(new TypeError("away"));
  const { to } = await open("/my/sets/1/word", { method: "POST", fetch: away });
  assert.equal(to, "https://club.example/table?unsent=/my/sets/1/word");
  assert.equal((await open("/my/sets/1/word", { method: "POST" })).words, "new");
});
