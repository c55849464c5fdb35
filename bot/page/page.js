// Keeps the page current. The stream gives the number of the last entry; when that is not
// shown yet, the page is fetched and the sections that changed are replaced. The page is
// complete without this script.
(() => {
  "use strict";
  const live = document.getElementById("live"), news = document.getElementById("news");
  const shown = () => Number(document.querySelector("main").dataset.last);
  const least = 1000, most = 60000; // ms between tries
  let stream, timer, wait = least, wanted = 0, busy = false, over = false;

  const later = (f) => { // exponential backoff with jitter
    clearTimeout(timer);
    timer = setTimeout(f, wait * (0.5 + Math.random() / 2));
    wait = Math.min(2 * wait, most);
  };

  const put = (fresh) => {
    const old = document.querySelector("main"), next = fresh.querySelector("main");
    const had = new Set([...old.querySelectorAll(".log li")].map((li) => li.id));
    const held = document.activeElement && old.contains(document.activeElement) ? document.activeElement : null;
    const href = held && held.getAttribute("href");
    for (const section of old.querySelectorAll("section")) {
      const now = next.querySelector("#" + section.id);
      if (!now || now.innerHTML === section.innerHTML) continue;
      const has = held && section.contains(held);
      section.replaceChildren(...now.childNodes);
      if (has && href) [...section.querySelectorAll("a")].find((a) => a.getAttribute("href") === href)?.focus({ preventScroll: true });
    }
    old.dataset.last = next.dataset.last;
    document.querySelector(".as-of time").replaceWith(fresh.querySelector(".as-of time"));
    document.getElementById("last").textContent = next.dataset.last;
    document.title = fresh.title;
    document.querySelector("h1").textContent = fresh.querySelector("h1").textContent;
    const came = [...old.querySelectorAll(".log li")].filter((li) => !had.has(li.id));
    for (const li of came) li.classList.add("new");
    if (came.length === 1) news.textContent = "New: " + came[0].querySelector("b").textContent + ", " + came[0].querySelector(".said").textContent;
    else if (came.length > 1) news.textContent = came.length + " new entries";
  };

  const fetchIt = async () => {
    if (busy || over || shown() >= wanted) return;
    busy = true;
    try {
      const r = await fetch(location.pathname + location.search, { cache: "no-store", credentials: "omit" });
      if (r.status === 404) return end();
      if (!r.ok) throw new Error(r.status);
      put(new DOMParser().parseFromString(await r.text(), "text/html"));
      if (shown() < wanted) setTimeout(fetchIt, least); // the server sent a cached page
    } catch {
      setTimeout(fetchIt, wait);
    } finally {
      busy = false;
    }
  };

  const end = () => {
    over = true;
    stop();
    live.textContent = "This link has been replaced: ask for the new one.";
  };

  const stop = () => {
    clearTimeout(timer);
    if (stream) stream.close();
    stream = undefined;
  };

  const start = () => {
    if (over) return;
    stop();
    stream = new EventSource(location.pathname + "/live");
    stream.onmessage = (e) => {
      wait = least;
      live.textContent = "New entries appear by themselves.";
      wanted = Number(e.data);
      fetchIt();
    };
    stream.onerror = () => {
      stop();
      live.textContent = "Not connected: what is shown may be old. Trying again.";
      later(start);
      fetch(location.pathname, { method: "HEAD", cache: "no-store" }).then((r) => { if (r.status === 404) end(); }, () => {});
    };
  };

  // Browsers limit connections per host, so a hidden tab closes its stream.
  document.addEventListener("visibilitychange", () => document.hidden ? stop() : start());
  if (!document.hidden) start();
})();
