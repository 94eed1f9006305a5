"use strict";
// Lays the answers of one block out on a screen: table and figure side by side on common lines, as large as they fit. A unit is
// a 720th of the height of a slide.
window.lesson.Room = (() => {
  const { rowsOf } = window.stepping;

  const GAP = 40;
  const LARGEST = 30;
  const LEAST = 24;
  const LEAST_IN_FIGURE = 20;
  // Rather than come out smaller than this, some of many rows stay out of sight.
  const CROWDED = 16;
  // The share of a row's height that letters may have.
  const LETTERS = 0.46;

  const own = (svg) => svg.original ?? (svg.original = ["viewBox", "width", "height"].map((name) => [name, svg.getAttribute(name)]));

  function box(svg, [left, top, width, height], scale) {
    own(svg);
    svg.setAttribute("viewBox", `${left} ${top} ${width} ${height}`);
    svg.setAttribute("width", width * scale);
    svg.setAttribute("height", height * scale);
  }

  function put(element, left, top) {
    element.style.left = `${left}px`;
    element.style.top = `${top}px`;
  }

  const smallest = (svg) =>
    Math.min(...[...svg.querySelectorAll("[font-size]")].map((text) => Number(text.getAttribute("font-size"))), 99);

  class Room {
    constructor(stage) {
      this.stage = stage;
      this.root = stage.root;
      this.tables = [...this.root.querySelectorAll(".walked")];
      this.figures = [...this.root.querySelectorAll("figure.answer")];
      this.reports = [...this.root.querySelectorAll(".report")];
      this.view = 0;
      this.band = window.lesson.element("div", { className: "band" });
      this.views = this.viewsOf();
    }

    // A table with each figure; a figure that is a screen by itself, and the table by itself then.
    viewsOf() {
      const views = this.figures.map((figure, i) =>
        figure.dataset.screen === "own" ? { figure } : { figure, table: this.tables[Math.min(i, this.tables.length - 1)] },
      );
      for (const table of this.tables) if (!views.some((view) => view.table === table)) views.push({ table });
      return views;
    }

    get shown() {
      const stage = this.stage;
      const isReport = this.reports.length > 0 && (this.views.length === 0 || stage.cycle > stage.cycles + 1);
      if (!isReport) return this.views[this.view];
      const lastOf = (report) => Math.max(0, ...[...report.querySelectorAll("[data-cycle]")].map((part) => Number(part.dataset.cycle)));
      return { report: this.reports.find((report) => lastOf(report) >= stage.cycle) ?? this.reports.at(-1) };
    }

    get isWhole() {
      return this.shown.figure?.dataset.screen === "own";
    }

    get caption() {
      const { table, figure, report } = this.shown;
      if (report) {
        const come = [...report.querySelectorAll(".part:not(.later)")].at(-1);
        const asked = [...report.querySelectorAll(".asked")];
        return (asked.findLast((p) => come && p.compareDocumentPosition(come) & Node.DOCUMENT_POSITION_FOLLOWING) ?? asked[0])?.textContent ?? "";
      }
      return table?.querySelector("caption")?.textContent ?? figure?.querySelector("figcaption")?.firstChild?.textContent ?? "";
    }

    // What is said of the cycle that is looked at.
    get reason() {
      const cycle = this.stage.cycle;
      const at = (selector) => [...this.root.querySelectorAll(selector)].map((found) => found.textContent.trim());
      if (cycle > this.stage.cycles) return [at(".end p:first-child").join("; "), at(".end p:not(:first-child)").join("; ")].join("\n");
      const said = at(`tr[data-cycle="${cycle}"] .why, tr[data-cycle="${cycle}"].reason, .told [data-cycle="${cycle}"]`);
      return [...new Set(said.filter((text) => text.length > 0))].join("; ");
    }

    // ---- laying out

    arrange(width, height, unit) {
      Object.assign(this, { width, height, unit });
      const { table, figure, report } = this.shown;
      this.root.prepend(this.band);
      for (const part of this.root.querySelectorAll(".answer")) part.classList.toggle("off", ![table, figure, report].includes(part));
      this.lines = null;
      this.band.hidden = true;
      if (report) this.fit(report);
      else if (figure) this.pair(table, figure);
      else this.alone(table);
      this.follow();
    }

    // Of the parts that have come as many as can be read together, the last ones; one that is too long alone is scrolled.
    fit(report) {
      report.style.width = `${this.width}px`;
      report.style.maxHeight = `${this.height}px`;
      put(report, 0, 0);
      const parts = [...report.querySelectorAll(".part")];
      const come = parts.filter((part) => !part.classList.contains("later"));
      for (const part of parts) part.classList.toggle("off", !come.includes(part));
      while (!this.fits(report, LARGEST, LEAST) && come.length > 1) come.shift().classList.add("off");
      if (come.length <= 1) this.fits(report, LARGEST, LEAST_IN_FIGURE);
      report.scrollTop = 0;
    }

    fits(box, most, least) {
      for (let size = most; size >= least; size -= 2) {
        box.style.fontSize = `${size * this.unit}px`;
        if (box.scrollHeight <= box.clientHeight + 1) return true;
      }
      return false;
    }

    svgOf(figure) {
      return figure.querySelector(".sheet:not(.other) svg");
    }

    pair(table, figure) {
      for (const svg of figure.querySelectorAll("svg")) this.release(svg);
      const svg = this.svgOf(figure);
      if (!svg) {
        if (table) this.alone(table);
        return;
      }
      const rows = rowsOf(svg);
      const steps = table ? [...table.querySelectorAll("tbody tr:not(.reason)")].map((row) => Number(row.dataset.cycle)) : [];
      const isAligned = rows !== null && (!table || steps.join() === rows.rows.map((row) => row.cycle).join());
      const sizes = isAligned ? this.ofRows(svg, rows) : this.ofWhole(svg, figure);
      for (const least of table ? [LEAST, LEAST_IN_FIGURE] : []) {
        for (const hides of ["", "still"]) {
          if (this.beside(table, hides, sizes, least)) {
            this.place(table, figure, svg, sizes, rows, isAligned);
            return;
          }
        }
      }
      table?.classList.add("off");
      const alone = isAligned ? this.ofRows(svg, rows, 0) : sizes;
      alone.scale = this.scaleOf(alone, this.width);
      this.place(null, figure, svg, alone, rows, isAligned);
    }

    // What a figure of rows needs, its own labels left out where the table's stand beside it.
    ofRows(svg, { rows, crop }, from) {
      const left = from ?? Math.min(...rows[0].cells.map((cell) => cell.left)) - 6;
      const right = Math.max(...rows[0].cells.map((cell) => cell.left + cell.width)) + 6;
      const pitch = rows.length > 1 ? rows[1].top - rows[0].top : 2 * (rows[0].bottom - rows[0].top);
      const head = rows[0].top - crop;
      const digits = rows[0].group.querySelector('[font-family*="Mono"]');
      const letters = Number(digits?.getAttribute("font-size") ?? rows[0].bottom - rows[0].top);
      return { left, top: crop, width: right - left, head, pitch, count: rows.length, height: head + rows.length * pitch, letters };
    }

    ofWhole(svg, figure) {
      const [left, top, width, height] = svg.getAttribute("viewBox").split(" ").map(Number);
      const title = figure.dataset.screen === "own" ? null : svg.querySelector(":scope > text");
      const crop = title ? title.getBBox().y + title.getBBox().height : top;
      return { left, top: crop, width, height: height - crop, letters: smallest(svg) };
    }

    scaleOf(sizes, room) {
      const { unit } = this;
      const byHeight = this.height / sizes.height;
      const byWidth = room / sizes.width;
      const isCrowded = sizes.count && byHeight * sizes.letters < CROWDED * unit;
      const wanted = isCrowded ? (LEAST_IN_FIGURE * unit) / sizes.letters : byHeight;
      return Math.min(byWidth, wanted, 2 * unit);
    }

    // Whether both can be read side by side.
    beside(table, hides, sizes, least) {
      const { unit } = this;
      table.classList.remove("off");
      table.dataset.hides = hides;
      const grid = table.querySelector("table");
      grid.style.fontSize = "100px";
      sizes.letter = grid.offsetWidth / 100;
      sizes.scale = this.scaleOf(sizes, this.width - GAP * unit - sizes.letter * least * unit);
      return sizes.scale > 0 && sizes.scale * sizes.letters >= CROWDED * unit;
    }

    place(table, figure, svg, sizes, rows, isAligned) {
      const { unit } = this;
      const { scale } = sizes;
      const pitch = isAligned ? sizes.pitch * scale : 0;
      const visible = isAligned ? Math.max(1, Math.min(sizes.count, Math.floor((this.height / scale - sizes.head) / sizes.pitch + 0.01))) : 0;
      const height = isAligned ? sizes.head + visible * sizes.pitch : sizes.height;
      let left = 0;
      if (table) {
        const room = this.width - GAP * unit - sizes.width * scale;
        const size = Math.min(LARGEST * unit, room / sizes.letter, isAligned ? pitch * LETTERS : Infinity);
        left = this.set(table, size, isAligned ? pitch : Math.min(2.1 * size, (this.height - 2 * size) / table.querySelectorAll("tbody tr").length));
        left += GAP * unit;
      }
      box(svg, [sizes.left, sizes.top, sizes.width, height], scale);
      put(figure, table ? Math.max(left, this.width - sizes.width * scale) : (this.width - sizes.width * scale) / 2, 0);
      if (!isAligned) return;
      const middle = (rows.rows[0].top + rows.rows[0].bottom) / 2 - sizes.top;
      const top = middle * scale - pitch / 2;
      if (table) this.headed(table, top);
      this.lines = { rows, table, top, pitch, visible, count: sizes.count, step: sizes.pitch };
    }

    // A table in letters of a size and rows of a height; how wide it came out.
    set(table, size, pitch) {
      const grid = table.querySelector("table");
      grid.style.fontSize = `${size}px`;
      grid.style.setProperty("--pitch", `${pitch}px`);
      put(table, 0, 0);
      return grid.offsetWidth;
    }

    headed(table, top) {
      table.querySelector("table").style.setProperty("--head", `${top}px`);
    }

    alone(table) {
      const { unit } = this;
      table.classList.remove("off");
      table.dataset.hides = "";
      const grid = table.querySelector("table");
      grid.style.fontSize = "100px";
      const rows = [...table.querySelectorAll("tbody tr:not(.reason)")];
      const size = Math.min(38 * unit, (100 * this.width) / grid.offsetWidth, Math.max(LEAST * unit, this.height / (rows.length + 1) / 1.5));
      const pitch = Math.max(1.5 * size, Math.min(2.1 * size, this.height / (rows.length + 1)));
      const visible = Math.min(rows.length, Math.floor(this.height / pitch) - 1);
      this.set(table, size, pitch);
      this.headed(table, pitch);
      this.lines = { rows: null, table, top: pitch, pitch, visible, count: rows.length, step: 0 };
    }

    // ---- while one steps

    // Marks the row in both; of many rows those around it are in sight.
    follow() {
      if (!this.lines) return;
      const { rows, table, top, pitch, visible, count, step } = this.lines;
      const listed = table ? [...table.querySelectorAll("tbody tr:not(.reason)")] : [];
      const asked = this.stage.asked.length > 0 ? 1 : 0;
      const cycle = Math.min(this.stage.here + asked, this.stage.cycles);
      const all = rows ? rows.rows.map((row) => row.cycle) : listed.map((row) => Number(row.dataset.cycle));
      const index = all.lastIndexOf(cycle);
      const first = Math.max(0, Math.min(count - visible, index - visible + 2));
      const isOut = (i) => i < first || i >= first + visible;
      listed.forEach((row, i) => row.classList.toggle("out", isOut(i)));
      rows?.rows.forEach((row, i) => this.move(row.group, first * step, isOut(i)));
      rows?.threads.forEach((group) => this.move(group, first * step, isOut(all.indexOf(Number(group.dataset.cycle))) || Number(group.dataset.cycle) === all[first]));
      rows?.tail.forEach((shape) => shape.classList.add("out"));
      this.band.hidden = index < 0;
      this.band.style.top = `${top + (index - first) * pitch}px`;
      this.band.style.height = `${pitch}px`;
    }

    move(group, by, isOut) {
      group.setAttribute("transform", `translate(0 ${-by})`);
      group.classList.toggle("out", isOut);
    }

    // ---- back to the text

    release(svg) {
      for (const [name, value] of svg.original ?? []) svg.setAttribute(name, value);
      for (const shape of svg.querySelectorAll(":scope > g[transform]")) shape.removeAttribute("transform");
      for (const shape of svg.querySelectorAll(".out")) shape.classList.remove("out");
    }

    leave() {
      this.band.remove();
      for (const svg of this.root.querySelectorAll("svg")) this.release(svg);
      for (const part of this.root.querySelectorAll(".answer, .answer table, .report")) part.removeAttribute("style");
      for (const part of this.root.querySelectorAll(".off, .out")) part.classList.remove("off", "out");
    }
  }

  return Room;
})();
