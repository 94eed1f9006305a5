"use strict";
// Lets one step through the cycles of a stage: what is still to come is held back, and may be predicted first. Without this
// script everything stands in the page.
window.lesson = (() => {
  const words = JSON.parse(document.getElementById("words").textContent);
  const say = (key, facts = {}) => words[key].replace(/\{(\w+)\}/g, (_, fact) => facts[fact]);

  const element = (name, properties = {}, ...children) => {
    const made = Object.assign(document.createElement(name), properties);
    made.append(...children);
    return made;
  };

  const digitsOf = (text) => text.replace(/[\s_]/g, "");

  // The cells of registers, in a figure whose rows are made of them.
  const CELLS = "[data-register][data-bit]";

  // What a figure says below its rows is known only at the end, as the results are.
  function holdBackResults(svg, end) {
    const groups = [...svg.querySelectorAll(":scope > g[data-cycle]")];
    const last = groups.findLastIndex((group) => group.querySelector(CELLS));
    if (last >= 0) for (const group of groups.slice(last + 1)) group.dataset.cycle = end;
  }

  // A place to write into for each part of a register that is still to come.
  function blank(code) {
    const parts = code.textContent.split(/( +)/).map((part) => {
      if (part.trim() === "") return part;
      return element("span", { className: "blank" }, element("span", { textContent: part }));
    });
    code.replaceChildren(...parts);
  }

  // Columns of registers that hold the same all the time: where there is little room they can be done without.
  function markStill(table) {
    const rows = [...table.querySelectorAll("tbody tr:not(.reason)")];
    const heads = [...table.querySelectorAll("thead th")];
    heads.forEach((head, i) => {
      const cells = rows.map((row) => row.cells[i]).filter(Boolean);
      const isRegister = cells.every((cell) => cell.dataset.register !== undefined);
      if (!isRegister || new Set(cells.map((cell) => cell.textContent)).size > 1) return;
      for (const cell of [head, ...cells]) cell.classList.add("still");
    });
  }

  class Stage {
    constructor(root) {
      this.root = root;
      this.cycles = Number(root.dataset.cycles);
      this.last = Number(root.dataset.steps);
      this.isOpen = "open" in root.dataset;
      for (const svg of root.querySelectorAll("figure svg")) holdBackResults(svg, this.cycles + 1);
      for (const code of root.querySelectorAll("tr[data-cycle] td[data-register]:not(.number) code")) blank(code);
      for (const table of root.querySelectorAll(".walked table")) markStill(table);
      this.sheets = [...root.querySelectorAll(".sheet[data-cycle]")];
      this.parts = [...root.querySelectorAll("[data-cycle]")].filter((part) => !this.sheets.includes(part));
      this.cycle = 0;
      this.predicts = false;
      this.asked = [];
      // Whoever shows the stage on a screen of its own wants to know.
      this.changed = () => {};
      this.build();
      this.show(0);
    }

    build() {
      const button = (key, act) => element("button", { type: "button", textContent: say(key), onclick: act });
      this.back = button("backward", () => this.go(this.cycle - 1));
      this.next = button("forward", () => this.forward());
      this.start = button("start", () => this.go(0));
      this.all = button("all", () => this.go(this.last));
      this.predict = button("predict", () => this.turnPrediction());
      this.predict.setAttribute("aria-pressed", "false");
      this.now = element("p", { className: "now" });
      this.now.setAttribute("role", "status");
      const buttons = this.last > 1 ? [this.start, this.back, this.next, this.all] : this.last > 0 ? [this.back, this.next] : [];
      if (this.canPredict) buttons.push(this.predict);
      this.screen = button("screen", () => this.present?.());
      const bar = element("div", { className: "bar" }, ...buttons, this.screen, this.now);
      bar.setAttribute("role", "group");
      bar.setAttribute("aria-label", say("bar"));
      this.root.prepend(bar);
      this.root.addEventListener("touchstart", (event) => this.touched(event), { passive: true });
      this.root.addEventListener("touchend", (event) => this.released(event), { passive: true });
    }

    get canPredict() {
      return this.root.querySelector("td[data-register]") !== null;
    }

    // The cycle that is looked at; behind the last it stays.
    get here() {
      return Math.min(this.cycle, this.cycles);
    }

    // ---- time

    // Whether there was anything left to show.
    forward() {
      if (this.asked.length > 0) {
        this.answer();
        return true;
      }
      if (this.cycle >= this.last) return false;
      if (this.cycle < this.cycles && this.predicts && this.ask(this.cycle + 1)) this.say();
      else this.go(this.cycle + 1);
      return true;
    }

    backward() {
      if (this.cycle === 0 && this.asked.length === 0) return false;
      this.go(this.asked.length > 0 ? this.cycle : this.cycle - 1);
      return true;
    }

    go(cycle) {
      this.forget();
      this.root.querySelectorAll(".guess").forEach((guess) => guess.remove());
      this.show(Math.max(0, Math.min(this.last, cycle)));
    }

    show(cycle) {
      this.cycle = cycle;
      for (const part of this.parts) {
        const its = Number(part.dataset.cycle);
        part.classList.toggle("later", its > cycle);
        if (part.tagName === "TR" || part.querySelector(CELLS)) part.classList.toggle("here", its === this.here);
      }
      // Of a figure's sheets only the last that has come is seen.
      for (const sheet of this.sheets) {
        const come = this.sheets.filter((s) => s.parentNode === sheet.parentNode).map((s) => Number(s.dataset.cycle));
        const last = Math.max(...come.filter((c) => c <= cycle));
        sheet.classList.toggle("other", Number(sheet.dataset.cycle) !== last);
      }
      this.say();
    }

    say() {
      const facts = { cycle: this.cycle, last: this.cycles };
      const isAsking = this.asked.length > 0;
      this.now.textContent = isAsking ? say("asking", { cycle: this.cycle + 1 }) : this.at(facts);
      const isCycle = this.cycle < this.cycles && !isAsking;
      this.next.textContent = say(isCycle ? "forward" : "answer");
      const atStart = this.cycle === 0 && !isAsking;
      // A button that were disabled would lose the focus, and with it the keys.
      for (const button of [this.back, this.start]) button.setAttribute("aria-disabled", String(atStart));
      for (const button of [this.next, this.all]) button.setAttribute("aria-disabled", String(this.cycle === this.last));
      this.changed();
    }

    at(facts) {
      if (this.cycles === 0) return "";
      if (this.cycle > this.cycles) return say("results");
      if (this.cycle === 0) return say(this.isOpen ? "open" : "load", facts);
      return say(this.isOpen ? "cycle" : "at", facts);
    }

    // ---- predicting

    turnPrediction() {
      if (!this.canPredict) return;
      this.predicts = !this.predicts;
      this.predict.setAttribute("aria-pressed", String(this.predicts));
      if (this.predicts && this.here === this.cycles) this.go(0);
      if (!this.predicts) this.forget();
      this.say();
    }

    // Puts an empty field over every register of a cycle; false where the stage has none.
    ask(cycle) {
      for (const cell of this.root.querySelectorAll(`tr[data-cycle="${cycle}"] td[data-register]`)) {
        const code = cell.querySelector("code");
        const field = element("input", { type: "text", autocomplete: "off", inputMode: "numeric", spellcheck: false });
        field.size = code.textContent.length;
        field.setAttribute("aria-label", say("field", { name: cell.dataset.register, cycle }));
        code.hidden = true;
        cell.classList.add("ask");
        cell.style.visibility = "visible";
        cell.parentElement.classList.add("asking");
        cell.append(field);
        this.asked.push({ cell, code, field });
      }
      for (const row of this.rowsOfFigures(cycle)) row.classList.add("asking");
      // On a screen that a room looks at the keys of the pointer are wanted, and the answers are called out.
      if (document.documentElement.dataset.presenting !== "yes") this.asked[0]?.field.focus();
      return this.asked.length > 0;
    }

    rowsOfFigures(cycle) {
      return [...this.root.querySelectorAll(`figure g[data-cycle="${cycle}"]`)].filter((group) => group.querySelector(CELLS));
    }

    answer() {
      const said = this.asked.map(({ cell, code, field }) => ({ cell, right: code.textContent, guess: field.value.trim() }));
      const tried = said.filter(({ guess }) => guess.length > 0);
      const agreeing = tried.filter(({ guess, right }) => digitsOf(guess) === digitsOf(right));
      this.go(this.cycle + 1);
      for (const { cell, right, guess } of tried) {
        const agrees = digitsOf(guess) === digitsOf(right);
        const note = element("span", { className: "guess" });
        if (agrees) note.textContent = say("agrees");
        else note.append(say("differs") + " ", element("code", { textContent: guess }));
        cell.append(note);
      }
      if (tried.length > 0) this.now.textContent += " " + say("count", { count: agreeing.length, last: tried.length });
      if (said.some(({ cell }) => cell.contains(document.activeElement)) || document.activeElement === document.body) this.next.focus();
    }

    forget() {
      if (this.asked.some(({ field }) => field === document.activeElement)) this.next.focus();
      for (const { cell, code, field } of this.asked) {
        field.remove();
        code.hidden = false;
        cell.classList.remove("ask");
        cell.style.visibility = "";
        cell.parentElement.classList.remove("asking");
      }
      for (const row of this.root.querySelectorAll("figure .asking")) row.classList.remove("asking");
      this.asked = [];
    }

    // ---- keys and fingers

    key(event) {
      const typing = event.target instanceof HTMLInputElement;
      const acts = typing
        ? { Enter: () => this.forward(), Escape: () => this.go(this.cycle) }
        : {
            ArrowRight: () => this.forward(),
            ArrowLeft: () => this.backward(),
            Home: () => this.go(0),
            End: () => this.go(this.last),
            p: () => this.turnPrediction(),
            f: () => this.present?.(),
          };
      const act = acts[event.key];
      if (!act || event.ctrlKey || event.metaKey || event.altKey) return;
      event.preventDefault();
      act();
    }

    touched(event) {
      if (document.documentElement.dataset.presenting === "yes") return;
      const scrolls = event.target.closest(".wide");
      const free = !scrolls || scrolls.scrollWidth <= scrolls.clientWidth;
      this.from = event.touches.length === 1 && free ? event.touches[0] : null;
    }

    released(event) {
      if (!this.from) return;
      const [x, y] = [event.changedTouches[0].clientX - this.from.clientX, event.changedTouches[0].clientY - this.from.clientY];
      if (Math.abs(x) > 50 && Math.abs(x) > 2 * Math.abs(y)) x < 0 ? this.forward() : this.backward();
      this.from = null;
    }
  }

  const stages = [...document.querySelectorAll(".stage")].map((root) => new Stage(root));

  // A key is for the stage that has the focus; of the page's own keys none is taken.
  document.addEventListener("keydown", (event) => {
    if (document.documentElement.dataset.presenting === "yes") return;
    const root = event.target.closest?.(".stage");
    stages.find((stage) => stage.root === root)?.key(event);
  });

  return { stages, say, element };
})();
