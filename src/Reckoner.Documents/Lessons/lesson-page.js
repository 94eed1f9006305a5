"use strict";
// Lets one step through the cycles of a stage: what is still to come is held back, and may be predicted first. Without this
// script everything stands in the page.
(() => {
  const words = JSON.parse(document.getElementById("words").textContent);
  const say = (key, facts = {}) => words[key].replace(/\{(\w+)\}/g, (_, fact) => facts[fact]);

  const element = (name, properties = {}, ...children) => {
    const made = Object.assign(document.createElement(name), properties);
    made.append(...children);
    return made;
  };

  const digitsOf = (text) => text.replace(/[\s_]/g, "");

  class Stage {
    constructor(root) {
      this.root = root;
      this.parts = [...root.querySelectorAll("[data-cycle]")];
      this.last = Math.max(...this.parts.map((part) => Number(part.dataset.cycle)));
      this.cycle = 0;
      this.predicts = false;
      this.asked = [];
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
      const buttons = [this.start, this.back, this.next, this.all];
      if (this.root.querySelector("td[data-register]")) buttons.push(this.predict);
      if (document.fullscreenEnabled) buttons.push(button("screen", () => this.turnScreen()));
      const bar = element("div", { className: "bar" }, ...buttons, this.now);
      bar.setAttribute("role", "group");
      bar.setAttribute("aria-label", say("bar"));
      this.root.prepend(bar);
      this.root.addEventListener("touchstart", (event) => this.touched(event), { passive: true });
      this.root.addEventListener("touchend", (event) => this.released(event), { passive: true });
    }

    // ---- time

    forward() {
      if (this.asked.length > 0) this.answer();
      else if (this.cycle < this.last && this.predicts && this.ask(this.cycle + 1)) this.say();
      else this.go(this.cycle + 1);
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
        if (part.tagName === "TR") part.classList.toggle("here", its === cycle);
      }
      this.say();
    }

    say() {
      const at = this.cycle === 0 ? say("load", { last: this.last }) : say("at", { cycle: this.cycle, last: this.last });
      this.now.textContent = this.asked.length > 0 ? say("asking", { cycle: this.cycle + 1 }) : at;
      this.next.textContent = say(this.asked.length > 0 ? "answer" : "forward");
      const atStart = this.cycle === 0 && this.asked.length === 0;
      // A button that were disabled would lose the focus, and with it the keys.
      for (const button of [this.back, this.start]) button.setAttribute("aria-disabled", String(atStart));
      for (const button of [this.next, this.all]) button.setAttribute("aria-disabled", String(this.cycle === this.last));
    }

    // ---- predicting

    turnPrediction() {
      this.predicts = !this.predicts;
      this.predict.setAttribute("aria-pressed", String(this.predicts));
      if (this.predicts && this.cycle === this.last) this.go(0);
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
      this.asked[0]?.field.focus();
      return this.asked.length > 0;
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
      this.next.focus();
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
      this.asked = [];
    }

    // ---- the projector, keys and fingers

    turnScreen() {
      if (document.fullscreenElement) document.exitFullscreen();
      else this.root.requestFullscreen();
    }

    key(event) {
      const typing = event.target instanceof HTMLInputElement;
      const acts = typing
        ? { Enter: () => this.forward(), Escape: () => this.go(this.cycle) }
        : {
            ArrowRight: () => this.forward(),
            ArrowLeft: () => this.go(this.cycle - 1),
            PageDown: document.fullscreenElement && (() => this.forward()),
            PageUp: document.fullscreenElement && (() => this.go(this.cycle - 1)),
            Home: () => this.go(0),
            End: () => this.go(this.last),
            p: () => this.turnPrediction(),
            f: () => this.turnScreen(),
          };
      const act = acts[event.key];
      if (!act || event.ctrlKey || event.metaKey || event.altKey) return;
      event.preventDefault();
      act();
    }

    touched(event) {
      const scrolls = event.target.closest(".wide");
      const free = !scrolls || scrolls.scrollWidth <= scrolls.clientWidth;
      this.from = event.touches.length === 1 && free ? event.touches[0] : null;
    }

    released(event) {
      if (!this.from) return;
      const [x, y] = [event.changedTouches[0].clientX - this.from.clientX, event.changedTouches[0].clientY - this.from.clientY];
      if (Math.abs(x) > 50 && Math.abs(x) > 2 * Math.abs(y)) x < 0 ? this.forward() : this.go(this.cycle - 1);
      this.from = null;
    }
  }

  const stages = [...document.querySelectorAll(".stage")]
    .filter((root) => root.querySelector("[data-cycle]"))
    .map((root) => new Stage(root));

  // A key is for the stage that fills the screen, else for the one that has the focus; of the page's own keys none is taken.
  document.addEventListener("keydown", (event) => {
    const root = document.fullscreenElement ?? event.target.closest?.(".stage");
    stages.find((stage) => stage.root === root)?.key(event);
  });
})();
