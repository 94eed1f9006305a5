"use strict";
// Shows the lesson to a room: a block fills a screen, what stands between two blocks another. One key after the other leads
// through all of it.
(() => {
  const { stages, say, element, Room } = window.lesson;
  const { keys } = window.stepping;
  const root = document.documentElement;
  const main = document.querySelector("main");

  // ---- the screens: text up to the next heading or block is one, each block is one.
  const screens = [];
  let title = "";
  for (const node of main.children) {
    if (/^H[1-3]$/.test(node.tagName)) {
      title = node.textContent;
      if (node.tagName !== "H3") {
        screens.push({ title, nodes: [], heading: node });
        continue;
      }
    }
    const stage = stages.find((s) => s.root === node);
    if (stage) screens.push({ title, nodes: [node], room: new Room(stage), stage });
    else if (screens.length === 0 || screens.at(-1).stage) screens.push({ title, nodes: [node] });
    else screens.at(-1).nodes.push(node);
  }
  // A heading right above a block is that block's title.
  const shown = screens.filter((screen, i) => screen.nodes.length > 0 || i === 0);
  for (const screen of shown) screen.from = screen.heading ?? screen.nodes[0];

  // ---- the frame around them
  const button = (key, act) => element("button", { type: "button", textContent: say(key), onclick: act });
  const heading = element("h2");
  const about = element("p", { className: "about" });
  const stitches = element("p", { className: "stitches" });
  stitches.setAttribute("aria-hidden", "true");
  const why = element("p", { className: "reason-now" });
  why.setAttribute("role", "status");
  const at = element("span", { className: "at" });
  const reading = button("reading", () => turn());
  const ways = element(
    "div",
    { className: "ways" },
    at,
    reading,
    button("earlier", () => earlier()),
    button("later", () => later()),
    button("present-end", () => end()),
  );
  const frame = element(
    "div",
    { className: "frame", hidden: true },
    element("header", {}, heading, about, stitches),
    element("footer", {}, why, ways),
  );
  const black = element("div", { className: "black", hidden: true });
  document.body.append(frame, black);

  let current = -1;
  const isPresenting = () => current >= 0;

  // ---- showing one

  function unit() {
    return innerWidth >= innerHeight ? Math.min(innerWidth / 1280, innerHeight / 720) : Math.min(innerWidth / 600, innerHeight / 900);
  }

  function show(index) {
    if (isPresenting()) leave();
    current = index;
    const screen = shown[index];
    for (const node of main.children) node.classList.toggle("on", screen.nodes.includes(node));
    heading.textContent = screen.title;
    if (screen.stage) screen.stage.changed = () => followed();
    stitches.replaceChildren(
      ...(shown.length <= 40
        ? shown.map((_, i) => element("i", { className: i < index ? "past" : i === index ? "now" : "" }))
        : [`${index + 1}/${shown.length}`]),
    );
    arrange();
    main.scrollTop = 0;
    remember();
  }

  function leave() {
    const { room, stage } = shown[current];
    if (stage) stage.changed = () => {};
    room?.leave();
    main.style.fontSize = "";
  }

  function arrange() {
    const { room } = shown[current];
    const u = unit();
    root.style.setProperty("--u", `${u}px`);
    frame.dataset.form = !room ? "text" : room.shown.report ? "report" : room.isWhole ? "whole" : "block";
    about.textContent = room && !room.isWhole ? room.caption : "";
    reading.hidden = !(room && room.views.length > 1);
    told();
    const box = getComputedStyle(main);
    const [width, height] = [
      main.clientWidth - parseFloat(box.paddingLeft) - parseFloat(box.paddingRight),
      main.clientHeight - parseFloat(box.paddingTop) - parseFloat(box.paddingBottom),
    ];
    if (room) {
      room.arrange(width, height, u);
      return;
    }
    let size = 38;
    do main.style.fontSize = `${size * u}px`;
    while (main.scrollHeight > main.clientHeight + 1 && (size -= 2) >= 26);
  }

  // The reason below, as large as it fits into its place.
  function told() {
    const { room, stage } = shown[current];
    at.textContent = stage ? stage.now.textContent : "";
    why.textContent = !stage || room.isWhole || stage.asked.length > 0 ? "" : room.reason;
    let size = 44;
    do why.style.fontSize = `${size * unit()}px`;
    while (why.scrollHeight > why.clientHeight + 1 && (size -= 2) >= 18);
  }

  // A step may bring another sheet or another answer into sight.
  function followed() {
    if (!isPresenting()) return;
    arrange();
    remember();
  }

  function turn() {
    const { room } = shown[current];
    if (!room || room.views.length < 2) return;
    room.view = (room.view + 1) % room.views.length;
    arrange();
  }

  // ---- time

  // What is longer than the screen is scrolled first.
  function scrolled(by) {
    const boxes = [main, ...main.querySelectorAll(".on .report:not(.off)")];
    const box = boxes.find((b) => b.scrollHeight > b.clientHeight + 2 && (by > 0 ? b.scrollTop + b.clientHeight < b.scrollHeight - 2 : b.scrollTop > 2));
    box?.scrollBy({ top: by * 0.8 * box.clientHeight });
    return Boolean(box);
  }

  function later() {
    if (scrolled(1)) return;
    if (shown[current].stage?.forward()) return;
    if (current + 1 < shown.length) show(current + 1);
  }

  function earlier() {
    if (scrolled(-1)) return;
    if (shown[current].stage?.backward()) return;
    if (current > 0) show(current - 1);
  }

  function jump(by) {
    const to = current + by;
    if (to >= 0 && to < shown.length) show(to);
  }

  // ---- in and out

  async function full(on) {
    try {
      if (on) await root.requestFullscreen();
      else if (document.fullscreenElement) await document.exitFullscreen();
    } catch {
      // Not every device has a full screen, and none gives it unasked.
    }
  }

  function present(index, fills = true) {
    root.dataset.presenting = "yes";
    frame.hidden = false;
    show(index);
    if (fills) full(true);
  }

  function end() {
    if (!isPresenting()) return;
    const { from } = shown[current];
    leave();
    current = -1;
    root.dataset.presenting = "no";
    frame.hidden = true;
    black.hidden = true;
    full(false);
    from.scrollIntoView({ block: "start" });
    address("");
  }

  // The address keeps the place, so that a page that is loaded anew goes on there.
  function address(fragment) {
    try {
      history.replaceState(null, "", fragment ? `#${fragment}` : location.pathname + location.search);
    } catch {
      // A page from a disk may not, in some browsers.
    }
  }

  function remember() {
    address(`screen-${current + 1}${shown[current].stage ? `-${shown[current].stage.cycle}` : ""}`);
  }

  // ---- keys: the page's own, arrows to the sides too, and those of a presenter's pointer
  const letters = {
    p: () => shown[current].stage?.turnPrediction(),
    v: turn,
    g: ground,
    f: () => full(!document.fullscreenElement),
    b: darken,
    ".": darken,
  };

  const ways_ = { later, on: later, earlier, first: () => shown[current].stage?.go(0), last: () => shown[current].stage?.go(shown[current].stage.last) };

  function darken() {
    black.hidden = !black.hidden;
  }

  function ground() {
    root.dataset.ground = root.dataset.ground === "dark" ? "light" : "dark";
  }

  function act(event) {
    const key = event.key;
    if (key === "Escape") return () => (black.hidden ? end() : darken());
    if (key === "F5") return () => {};
    if (event.target instanceof HTMLInputElement && key.length === 1) return null;
    if (event.target instanceof HTMLButtonElement && (key === " " || key === "Enter")) return null;
    if (event.shiftKey && ["PageDown", "ArrowDown", "ArrowRight"].includes(key)) return () => jump(1);
    if (event.shiftKey && ["PageUp", "ArrowUp", "ArrowLeft"].includes(key)) return () => jump(-1);
    if (event.target instanceof HTMLInputElement && ["ArrowLeft", "ArrowRight", "Home", "End"].includes(key)) return null;
    if (key === "ArrowRight" || key === " " || key === "Enter") return later;
    if (key === "ArrowLeft" || key === "Backspace") return earlier;
    return ways_[keys[key]] ?? letters[key.toLowerCase()];
  }

  document.addEventListener("keydown", (event) => {
    if (!isPresenting() || event.ctrlKey || event.metaKey || event.altKey) return;
    const does = act(event);
    if (!does) return;
    event.preventDefault();
    // Whatever is pressed before a black screen brings it back.
    if (!black.hidden && does !== darken) darken();
    else does();
  });
  black.addEventListener("click", darken);

  // ---- fingers
  let from = null;
  document.addEventListener("touchstart", (event) => (from = isPresenting() && event.touches.length === 1 ? event.touches[0] : null), { passive: true });
  document.addEventListener(
    "touchend",
    (event) => {
      if (!from || !isPresenting()) return;
      const [x, y] = [event.changedTouches[0].clientX - from.clientX, event.changedTouches[0].clientY - from.clientY];
      if (Math.abs(x) > 50 && Math.abs(x) > 2 * Math.abs(y)) x < 0 ? later() : earlier();
      from = null;
    },
    { passive: true },
  );

  // Whoever leaves the full screen by the browser's own key is back in the text.
  let wasFull = false;
  document.addEventListener("fullscreenchange", () => {
    if (wasFull && !document.fullscreenElement) end();
    wasFull = Boolean(document.fullscreenElement);
  });
  addEventListener("resize", () => isPresenting() && arrange());
  document.fonts.ready.then(() => isPresenting() && arrange());

  for (const stage of stages) stage.present = () => present(shown.findIndex((screen) => screen.stage === stage));
  const start = button("present", () => present(0), "present");
  main.before(start);

  const place = /^#screen-(\d+)(?:-(\d+))?$/.exec(location.hash);
  if (place && shown[place[1] - 1]) {
    present(place[1] - 1, false);
    if (place[2]) shown[current].stage?.go(Number(place[2]));
  }
})();
