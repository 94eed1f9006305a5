// What the browser does for the page: address, storage, keys, the opening of the figure, workers, files, pictures.
"use strict";

window.reckoner = (() => {
    const { keys, cycleOf, veil, rowsOf } = window.stepping;
    const sheetKey = "reckoner.sheet";
    const looksKey = "reckoner.looks";
    const predicting = "predict";
    let page = null;
    let how = null;
    let kept = "";

    // ---- storage: a browser may refuse it, and then the address alone keeps the sheet.
    const stored = (key) => {
        try {
            return localStorage.getItem(key) ?? "";
        } catch {
            return "";
        }
    };
    const store = (key, value) => {
        try {
            localStorage.setItem(key, value);
        } catch {
            // Full or refused.
        }
    };

    function open(reference) {
        page = reference;
        const dark = matchMedia("(prefers-color-scheme: dark)");
        dark.addEventListener("change", () => page.invokeMethod("SystemGround", dark.matches));
        addEventListener("hashchange", () => {
            if (location.hash.slice(1) !== kept) page.invokeMethod("Linked", location.hash.slice(1));
        });
        document.addEventListener("keydown", pressed);
        document.addEventListener("click", clicked);
        document.addEventListener("selectionchange", caretMoved);
        document.addEventListener("fullscreenchange", () => {
            page.invokeMethod("FullChanged", !!document.fullscreenElement);
            requestAnimationFrame(show);
        });
        addEventListener("beforeprint", () => setOut("yes"));
        addEventListener("afterprint", () => setOut("no"));
        addEventListener("dragover", (event) => event.preventDefault());
        addEventListener("drop", dropped);
        return {
            fragment: location.hash.slice(1),
            kept: stored(sheetKey),
            looks: `${storedLooks()} ${preferredLanguages()}`.trim(),
            isDark: dark.matches,
        };
    }

    /** A sheet has a width and a ground of its own, and the figure is parted for that before it is printed. */
    function setOut(printing) {
        document.documentElement.dataset.printing = printing;
        page.invokeMethod("OnPaper", printing === "yes");
        lay(how);
    }

    // Browsers take so many changes of the address in so many milliseconds, then they drop them or throw: while a key is held
    // down, the address follows a second later at most.
    const most = 40;
    const during = 30000;
    const changes = [];
    let later = 0;

    function keep(fragment) {
        kept = fragment;
        store(sheetKey, fragment);
        const now = performance.now();
        while (changes.length > 0 && now - changes[0] > during) changes.shift();
        if (changes.length < most) {
            changes.push(now);
            writeAddress();
        } else if (!later) {
            later = setTimeout(writeAddress, 1000);
        }
    }

    function writeAddress() {
        clearTimeout(later);
        later = 0;
        try {
            // Not "#…" alone, which would be taken from the folder that <base> names.
            history.replaceState(null, "", location.href.split("#")[0] + "#" + kept);
        } catch {
            later = setTimeout(writeAddress, 5000);
        }
    }

    /** Whether values are predicted lasts as long as the tab: next week's visitor finds them all there. */
    function keepLooks(looks) {
        const words = looks.split(" ");
        store(looksKey, words.filter((w) => w !== predicting).join(" "));
        try {
            sessionStorage.setItem(looksKey, words.includes(predicting) ? predicting : "");
        } catch {
            // Refused.
        }
    }

    /** Behind what is kept: the page speaks the first of the visitor's languages that it has words for. */
    function preferredLanguages() {
        return (navigator.languages ?? [navigator.language]).map((tag) => tag.toLowerCase().split("-")[0]).join(" ");
    }

    function storedLooks() {
        try {
            return `${stored(looksKey).split(" ").filter((w) => w !== predicting).join(" ")} ${sessionStorage.getItem(looksKey) ?? ""}`.trim();
        } catch {
            return stored(looksKey);
        }
    }

    function dress(ground, isLarge, isPresenting, language) {
        const root = document.documentElement;
        const other = root.dataset.presenting !== (isPresenting ? "yes" : "no") || root.dataset.size !== (isLarge ? "large" : "usual");
        root.dataset.ground = ground;
        root.dataset.size = isLarge ? "large" : "usual";
        root.dataset.presenting = isPresenting ? "yes" : "no";
        // Setting it at each step would match every style anew.
        if (root.lang !== language) root.lang = language;
        if (other && how) requestAnimationFrame(show);
    }

    // ---- keys: where something is typed, they are the field's.
    function pressed(event) {
        const at = event.target;
        const typing = at.matches("input:not([type=range]), textarea, select, [contenteditable]");
        const undo = (event.ctrlKey || event.metaKey) && !event.altKey && event.key.toLowerCase() === "z";
        const redo = (event.ctrlKey || event.metaKey) && !event.altKey && event.key.toLowerCase() === "y";
        if (undo || redo) {
            event.preventDefault();
            page.invokeMethod("Key", redo || event.shiftKey ? "redo" : "undo");
            return;
        }
        if (event.ctrlKey || event.metaKey || event.altKey) return;
        let key = "";
        if (event.key === "Escape") key = "escape";
        else if (document.querySelector(".work") && !typing && !(event.key === "Enter" && at.matches("button:not(.cell), a"))) key = event.key;
        else if (typing && !at.dataset.steps) return;
        else if (keys[event.key]) key = keys[event.key];
        else if (event.key === " " && !at.matches("button, summary, a, input")) key = "reveal";
        else if (event.key.length === 1 && document.documentElement.dataset.presenting === "yes") key = event.key.toLowerCase();
        if (!key) return;
        if (page.invokeMethod("Key", key)) event.preventDefault();
    }

    function clicked(event) {
        const line = event.target.closest(".read [data-row]");
        if (line) typeAt(Number(line.dataset.row));
        const figure = event.target.closest(".figure");
        if (!figure) return;
        const bit = event.target.closest("[data-register][data-bit]");
        const cycle = event.target.closest("[data-cycle]");
        const made = event.target.closest("[data-line]");
        if (made) page.invokeMethod("PickedLine", Number(made.dataset.line));
        else if (cycle || bit) picked(cycle ? Number(cycle.dataset.cycle) : how.moment, bit);
    }

    const picked = (cycle, bit) =>
        page.invokeMethod("Picked", cycle, bit?.dataset.register ?? "", Number(bit?.dataset.bit ?? -1));

    /** The caret picks the statement that it stands in. */
    function caretMoved() {
        const text = document.activeElement;
        if (text?.id !== "text") return;
        page.invokeMethod("CaretAt", text.value.slice(0, text.selectionStart).split("\n").length - 1);
    }

    async function dropped(event) {
        event.preventDefault();
        const file = event.dataTransfer?.files[0];
        if (file) await read(file);
    }

    /** Bytes beyond what any description has are not read. */
    async function read(file) {
        const bytes = new Uint8Array(await file.slice(0, 2000000).arrayBuffer());
        await page.invokeMethodAsync("Opened", file.name, file.size, bytes);
    }

    function readFrom(id) {
        void readChosen(id);
    }

    async function readChosen(id) {
        const input = document.getElementById(id);
        const file = input.files[0];
        input.value = "";
        if (file) await read(file);
    }

    // ---- the figure: it parts above the row that is looked at, and the text that drives the row stands there.
    // A font that comes late or a wider window moves the opening; its own growth is answered once, not for ever.
    const sizes = new WeakMap();
    const sized = new ResizeObserver((entries) => {
        const changed = entries.filter(({ target }) => {
            const size = target.matches(".opening") ? target.offsetHeight : target.offsetWidth;
            const other = sizes.get(target) !== size;
            sizes.set(target, size);
            return other;
        });
        if (changed.length === 0) return;
        requestAnimationFrame(() => {
            lay(how);
            if (document.documentElement.dataset.presenting === "yes") show();
        });
    });

    /** Who works a walk out goes on typing where the page has gone on to. */
    function follow() {
        if (document.activeElement?.matches(".cell, .strip, .bit-keys button, #work-on, body")) {
            document.querySelector(".cell.here")?.focus({ preventScroll: true });
        }
    }

    function lay(next) {
        const isFirst = !how;
        const moved = next && how?.moment !== next.moment;
        how = next;
        if (!how) return;
        for (const box of document.querySelectorAll(".opening, .parted")) {
            if (!sizes.has(box)) {
                sizes.set(box, -1);
                sized.observe(box);
            }
        }
        for (const figure of document.querySelectorAll(".figure[data-parts]")) part(figure, how);
        settle(document.querySelector(".opening"));
        for (const svg of document.querySelectorAll(".whole .figure svg")) untitle(svg);
        for (const shape of document.querySelectorAll(".whole .figure [data-cycle]")) {
            shape.classList.toggle("here", cycleOf(shape) === how.moment);
            veil(shape, cycleOf(shape) > how.shown);
        }
        mark(how);
        // Who opens the page sees its title first, unless the text stands farther down than the window reaches.
        if (moved && (!isFirst || isBelow(document.querySelector(".opening")))) show();
    }

    /** As a share of the size of the text, the width of each of its letters; and how many of them a note needs beside a line. */
    const letter = 0.62;
    const leastNote = 24;

    /** Where the window leaves no room for notes beside their lines, each stands below its line, until that is typed into. */
    function settle(opening) {
        if (!opening) return;
        // Where the figure broke, the text stands without it.
        const around = opening.closest(".scroll, .sheet") ?? opening.parentElement;
        const room = Math.min(around.clientWidth, opening.parentElement.clientWidth);
        const columns = Number(opening.style.getPropertyValue("--columns")) + 3 + leastNote;
        const isUnder = room < columns * letter * parseFloat(getComputedStyle(opening).fontSize);
        const read = opening.querySelector(".read");
        if (isUnder !== (opening.dataset.under === "yes")) opening.dataset.under = isUnder ? "yes" : "no";
        if (!isUnder) {
            if (read.firstChild) read.replaceChildren();
            return;
        }
        opening.style.setProperty("--seen", `${room}px`);
        const notes = new Map();
        for (const note of opening.querySelectorAll(".notes:not(.veiled) li")) notes.set(Number(note.style.getPropertyValue("--row")), note);
        const lines = document.getElementById("text").value.split("\n");
        read.replaceChildren(...lines.map((line, row) => said(line, row, notes.get(row))));
    }

    function said(line, row, note) {
        const box = document.createElement("div");
        box.dataset.row = row;
        box.style.setProperty("--indent", line.length - line.trimStart().length);
        box.append(Object.assign(document.createElement("code"), { textContent: line.trim() || " " }));
        if (note) {
            const below = Object.assign(document.createElement("p"), { textContent: note.textContent.trim(), className: note.className });
            const sign = note.querySelector(".mark");
            if (sign) below.prepend(sign.cloneNode(true));
            box.append(below);
        }
        return box;
    }

    /** Puts the caret at the end of a line. */
    function typeAt(row) {
        const text = document.getElementById("text");
        const end = text.value.split("\n").slice(0, row + 1).join("\n").length;
        text.focus();
        text.setSelectionRange(end, end);
    }

    /** The bit that was picked, in every row; what the picked statement makes in a datapath. */
    function mark({ register, bit, line }) {
        for (const shape of document.querySelectorAll(".figure .picked")) shape.classList.remove("picked");
        const chosen = [];
        if (register) chosen.push(`[data-register="${CSS.escape(register)}"][data-bit="${bit}"]`);
        if (line > 0) chosen.push(`[data-line="${line}"]`);
        for (const shape of chosen.flatMap((which) => [...document.querySelectorAll(`.figure ${which}`)])) {
            shape.classList.add("picked");
        }
    }

    const isBelow = (box) => box && box.getBoundingClientRect().top > innerHeight - 2 * (document.querySelector(".steps")?.offsetHeight ?? 0);

    /** Brings the open text into sight, and with it the row that it drives. */
    function show() {
        const opening = document.querySelector(".opening");
        if (!opening) return;
        const row = document.querySelector(".sheet .figure .here");
        const steps = document.querySelector(".steps")?.offsetHeight ?? 0;
        const parted = opening.closest(".parted");
        const below = parted && row ? row.getBoundingClientRect().bottom - opening.getBoundingClientRect().bottom : 0;
        opening.style.scrollMarginBottom = `${steps + Math.max(0, below) + 8}px`;
        opening.scrollIntoView({ block: "nearest" });
        // Elsewhere the row may be far from the text, and stepping is to be seen.
        if (!parted) row?.scrollIntoView({ block: "nearest", inline: "nearest" });
    }

    function part(figure, { moment, shown, writes }) {
        const svg = figure.querySelector("svg");
        if (!svg) return;
        const plan = svg.plan ?? (svg.plan = measured(svg));
        if (!plan) return;
        const { rows, threads, above, tail, width, height, crop } = plan;
        const opening = figure.parentElement.querySelector(".opening");
        const first = rows[0];
        const scale = svg.clientWidth / width;
        const index = Math.min(Math.max(moment - first.cycle, 0), rows.length);
        const room = opening ? (opening.offsetHeight + 20) / scale : 0;
        const cutAt = index === 0 ? first.top - 4 : rows[index - 1].bottom;
        rows.forEach((row, i) => move(row.group, i >= index ? room : 0));
        threads.forEach((group) => move(group, cycleOf(group) - first.cycle >= index ? room : 0));
        tail.forEach((shape) => move(shape, room));
        rows.forEach((row) => veil(row.group, row.cycle > shown));
        threads.forEach((group) => veil(group, cycleOf(group) > shown));
        tail.forEach((shape) => veil(shape, shown < (how.last ?? 0)));
        rows.forEach((row) => row.group.classList.toggle("here", row.cycle === moment));
        // The rows that gave way reach below the picture's own border: to make it taller would lay out each of its texts anew.
        figure.style.setProperty("--room", `${room * scale}px`);
        warp(svg, index === 0 ? above : rows[index - 1].cells, cutAt, room, index === 0);
        differ(figure, plan);
        if (opening) {
            opening.style.top = `${(cutAt - crop) * scale + 6}px`;
            strokes(svg, writes ?? [], plan, index, room);
        }
    }

    /** The registers that differ from those of the other version, row by row. */
    function differ(figure, plan) {
        const differs = figure.dataset.differs ?? "";
        if (differs === plan.differs) return;
        plan.differs = differs;
        const those = new Set(differs.split(" "));
        for (const row of plan.rows) {
            for (const cell of row.group.querySelectorAll("[data-register][data-bit]")) {
                cell.classList.toggle("differs", those.has(`${row.cycle}:${cell.dataset.register}`));
            }
        }
    }

    function move(shape, by) {
        if (shape.movedBy === by) return;
        shape.movedBy = by;
        shape.setAttribute("transform", `translate(0 ${by})`);
    }

    /** A figure's title is left away where it is the page's, which stands above it. */
    function untitle(svg) {
        const title = svg.querySelector(":scope > text:not(.double)");
        if (title?.textContent !== document.querySelector("h1").textContent) return;
        const [, , width, height] = svg.getAttribute("viewBox").split(" ").map(Number);
        const crop = Number(title.getAttribute("y")) + 4;
        title.classList.add("double");
        svg.setAttribute("viewBox", `0 ${crop} ${width} ${height - crop}`);
        svg.setAttribute("height", height - crop);
    }

    /** Where a figure's rows stand; null for one that has none. */
    function measured(svg) {
        const plan = rowsOf(svg);
        if (!plan) return null;
        const { width, height, crop } = plan;
        plan.titles.forEach((t) => t.classList.add("double"));
        svg.setAttribute("viewBox", `0 ${crop} ${width} ${height - crop}`);
        // The height that follows from a width is that of these two, whatever the viewBox says.
        svg.setAttribute("height", height - crop);
        return { ...plan, above: plan.rows[0].cells };
    }

    const NS = "http://www.w3.org/2000/svg";

    function layer(svg, name, before) {
        let group = svg.querySelector(`:scope > .${name}`);
        if (!group) {
            group = document.createElementNS(NS, "g");
            group.setAttribute("class", name);
            if (before) svg.insertBefore(group, before);
            else svg.append(group);
        }
        return group;
    }

    /** Straight threads through the opening, from every cell of the row above it. */
    function warp(svg, cells, from, length, isLoad) {
        const group = layer(svg, "warp", svg.querySelector(":scope > g[data-cycle]"));
        const path = group.firstChild ?? group.appendChild(document.createElementNS(NS, "path"));
        const lines = isLoad ? [] : cells.map((c) => `M${c.left + c.width / 2} ${from}v${length}`);
        path.setAttribute("d", lines.join(""));
    }

    /** So many strokes stand over each other where statements wrote the same bits one after the other. */
    const mostStrokes = 3;
    const strokePitch = 5;

    /** Over exactly the bits that each statement wrote a stroke, as it stands beside the statement; the last one lowest. */
    function strokes(svg, writes, plan, index, room) {
        const group = layer(svg, "strokes");
        const row = plan.rows[index];
        const drawn = [];
        for (const write of row ? [...writes].reverse() : []) {
            const spans = write.bits.map(({ register, high, low }) => {
                const cells = row.cells.filter((c) => c.register === register && c.bit <= high && c.bit >= low);
                return { from: Math.min(...cells.map((c) => c.left)), to: Math.max(...cells.map((c) => c.left + c.width)) };
            });
            const meets = (other) => other.spans.some((o) => spans.some((s) => s.from < o.to && o.from < s.to));
            const level = Math.min(mostStrokes - 1, Math.max(-1, ...drawn.filter(meets).map((d) => d.level)) + 1);
            drawn.push({ write, spans, level });
        }
        group.replaceChildren(
            ...drawn.map(({ write, spans, level }) => {
                const path = document.createElementNS(NS, "path");
                const y = row.top + room - 3.5 - level * strokePitch;
                path.setAttribute("d", spans.map(({ from, to }) => `M${from} ${y}H${to}`).join(""));
                path.setAttribute("class", write.picked ? "strong" : "");
                path.dataset.statement = write.line;
                path.dataset.bits = write.bits.map(({ register, high, low }) => `${register}:${high}:${low}`).join(" ");
                return path;
            }),
        );
    }

    // ---- workers: one per job, ended when it is done or not wanted any more.
    const workers = new Map();

    function check(id, script, job, progress) {
        const address = URL.createObjectURL(new Blob([script], { type: "text/javascript" }));
        const worker = new Worker(address);
        URL.revokeObjectURL(address);
        const parsed = JSON.parse(job);
        return new Promise((resolve, reject) => {
            const end = (answer, error) => {
                worker.terminate();
                workers.delete(id);
                if (error) reject(error);
                else resolve(answer);
            };
            workers.set(id, end);
            worker.onerror = (event) => end(null, new Error(event.message));
            worker.onmessage = ({ data }) => {
                if (data.covered !== undefined) progress?.invokeMethod("Tell", data.covered / parsed.steps);
                else if (data.error) end(null, new Error(data.error));
                else end(JSON.stringify(data.result));
            };
            worker.postMessage({ job: parsed, from: 0, to: parsed.steps });
        });
    }

    const stop = (id) => workers.get(id)?.(null);

    // ---- files, pictures, the rest
    function save(name, type, content) {
        const link = document.createElement("a");
        link.href = URL.createObjectURL(content instanceof Blob ? content : new Blob([content], { type }));
        link.download = name;
        link.click();
        setTimeout(() => URL.revokeObjectURL(link.href), 10000);
    }

    async function savePicture(name, svg, width, height) {
        const image = new Image();
        image.src = URL.createObjectURL(new Blob([svg], { type: "image/svg+xml" }));
        try {
            await image.decode();
            const scale = Math.min(2, 16000 / Math.max(width, height));
            const canvas = document.createElement("canvas");
            canvas.width = Math.round(width * scale);
            canvas.height = Math.round(height * scale);
            canvas.getContext("2d").drawImage(image, 0, 0, canvas.width, canvas.height);
            const blob = await new Promise((resolve) => canvas.toBlob(resolve, "image/png"));
            if (!blob) return false;
            save(name, "image/png", blob);
            return true;
        } catch {
            return false;
        } finally {
            URL.revokeObjectURL(image.src);
        }
    }

    async function copy(text) {
        try {
            await navigator.clipboard.writeText(text);
            return true;
        } catch {
            return false;
        }
    }

    async function font(family, weight, bytes) {
        const face = new FontFace(family, bytes, { weight: String(weight) });
        document.fonts.add(await face.load());
    }

    async function full(on) {
        try {
            if (on) await document.documentElement.requestFullscreen();
            else if (document.fullscreenElement) await document.exitFullscreen();
        } catch {
            // Not every device has a full screen.
        }
    }

    const focus = (id) => document.getElementById(id)?.focus();

    const put = (id, text) => {
        document.getElementById(id).value = text;
    };

    const address = () => (location.protocol === "file:" ? "" : location.href.split("#")[0]);

    return { open, follow, keep, keepLooks, dress, lay, check, stop, save, savePicture, copy, font, full, focus, put, address, readFrom };
})();
