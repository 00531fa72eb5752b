// The service worker: version, files and finder are put above by the server. It keeps
// the page at the table and its files, whole or not at all, and the last look of
// a student's own pages. It never keeps or sends breaks: that is the page's.
const shellCache = `breakwright-${version}`, pagesCache = `breakwright-pages-${version}`;
const patienceMs = 4000;
const kept = (path) => path === "/today" || path.startsWith("/today/") || path.startsWith("/my/training") || ["/my/sets", "/my/card", "/my/progress"].includes(path);

// keepPages fetches pages anew into a cache, and reports whether all of them came.
const keepPages = async (cache, paths) => {
  let all = true;
  for (const path of paths) {
    try {
      const page = await fetch(path, { headers: { Accept: "text/html" } });
      if (page.ok && !page.redirected) await cache.put(path, page);
      else all = false;
    } catch { all = false; } // later, then
  }
  return all;
};
// keepTrainings keeps what the list of training leads to, and nothing that it no longer
// leads to; it reports whether all of it came.
const keepTrainings = async (cache) => {
  const list = await (await cache.match("/my/training"))?.text();
  if (!list) return false;
  const paths = [...new Set(list.match(/\/my\/training\/[\w-]+/g))];
  for (const { url } of await cache.keys()) {
    if (url.includes("/my/training/") && !paths.some((path) => url.includes(path))) await cache.delete(url);
  }
  return keepPages(cache, paths);
};
// The pages belong to one person: another's go before theirs come. mark is what
// they are made of; while it is the same, nothing is fetched. All goes into the cache
// as it was opened: when it is deleted meanwhile, what comes late is seen by nobody.
const noteAt = "/kept-pages";
let forgotten = 0; // how often a person was
const keepFor = async ({ person, mark, keep }) => {
  const before = forgotten;
  const note = await (await caches.match(noteAt, { cacheName: pagesCache }))?.json();
  if (note?.person === person && note.mark === mark) return;
  if (note && note.person !== person) await caches.delete(pagesCache);
  const cache = await caches.open(pagesCache);
  if (forgotten !== before) return; // it may be opened anew
  const keepNote = (mark) => cache.put(noteAt, new Response(JSON.stringify({ person, mark })));
  await keepNote("");
  const came = [await keepPages(cache, keep), await keepTrainings(cache)];
  if (!came.includes(false)) await keepNote(mark);
};

addEventListener("install", (event) => event.waitUntil((async () => {
  const cache = await caches.open(shellCache);
  await cache.addAll([...files, new Request("/table", { cache: "reload" })]);
  // Pages that an older version kept are fetched anew: they name older files.
  for (const name of await caches.keys()) {
    if (!name.startsWith("breakwright-pages-") || name === pagesCache) continue;
    const old = await caches.open(name);
    await keepPages(await caches.open(pagesCache), (await old.keys()).map((r) => r.url.slice(location.origin.length)));
  }
  await skipWaiting();
})()));

addEventListener("activate", (event) => event.waitUntil((async () => {
  for (const name of await caches.keys()) {
    if (name.startsWith("breakwright-") && name !== shellCache && name !== pagesCache) await caches.delete(name);
  }
  await clients.claim();
})()));

addEventListener("message", (event) => {
  if (event.data.keep) event.waitUntil(keepFor(event.data));
  if (event.data.finder) event.waitUntil(caches.open(shellCache).then(async (shell) => (await shell.match(finder)) || shell.add(finder)).catch(() => {}));
  if (event.data.forget) {
    forgotten++;
    event.waitUntil(caches.delete(pagesCache));
  }
});

const shell = async () => (await caches.match("/table", { cacheName: shellCache })) || Response.error();
const whenPatienceEnds = () => new Promise((resolve) => setTimeout(resolve, patienceMs));

// page tries the server and falls back on what is kept: at once when it cannot
// be reached, after a while when it does not answer. Looking for what is kept and
// keeping what comes are done beside it: storage that is slow, full or broken holds no
// answer of the server's up. The cache is opened before the server is asked, so that
// what comes after a sign-out is kept for nobody.
const page = async (event, path) => {
  const opened = caches.open(pagesCache);
  const looking = opened.then((cache) => (kept(path) || path === "/" ? cache.match(path === "/" ? "/today" : event.request) : undefined));
  const found = Promise.race([looking.catch(() => undefined), whenPatienceEnds()]);
  const trying = fetch(event.request);
  event.waitUntil(trying.then(async (answer) => {
    if (!kept(path) || !answer.ok || answer.type !== "basic" || answer.redirected) return;
    const copy = answer.clone(); // before the page reads it
    await (await opened).put(event.request, copy);
  }).catch(() => {})); // no answer, or no room for it
  try {
    const answer = await Promise.race([trying, whenPatienceEnds()]);
    return answer && answer.status < 500 ? answer : (await found) || (await trying);
  } catch {
    return (await found) || shell();
  }
};

addEventListener("fetch", (event) => {
  const url = new URL(event.request.url);
  if (event.request.method === "POST" && event.request.mode === "navigate") {
    // A form that cannot be sent: the page at the table says so.
    event.respondWith(fetch(event.request).catch(() => Response.redirect(`${url.origin}/table?unsent=${url.pathname}`)));
    return;
  }
  if (event.request.method !== "GET" || url.origin !== location.origin) return;
  if (url.pathname.startsWith("/static/")) {
    event.respondWith(caches.match(event.request, { cacheName: shellCache }).catch(() => undefined).then((found) => found || fetch(event.request)));
  } else if (event.request.mode === "navigate" && url.pathname === "/table") {
    event.respondWith(shell().catch(() => Response.error()).then((found) => (found.ok ? found : fetch(event.request))));
  } else if (event.request.mode === "navigate") {
    event.respondWith(page(event, url.pathname));
  }
});
