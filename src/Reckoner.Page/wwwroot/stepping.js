// What the page and the player of a lesson share: the keys that step through time, and where the rows of a figure stand.
"use strict";

window.stepping = (() => {
    /** Arrows and the keys of a presenter's pointer. */
    const keys = { ArrowDown: "later", ArrowUp: "earlier", PageDown: "on", PageUp: "earlier", Home: "first", End: "last" };

    const cycleOf = (group) => Number(group.dataset.cycle);

    const veil = (shape, on) => shape.classList.toggle("veiled", on);

    /** Where a figure's rows stand, which must be on the screen; null for one whose rows are no cells of registers. */
    function rowsOf(svg) {
        const [, , width, height] = svg.getAttribute("viewBox").split(" ").map(Number);
        const groups = [...svg.querySelectorAll(":scope > g[data-cycle]")];
        const rows = [];
        const threads = [];
        for (const group of groups) {
            const cells = [...group.querySelectorAll("rect[data-register][data-bit]")].map((cell) => ({
                register: cell.dataset.register,
                bit: Number(cell.dataset.bit),
                left: Number(cell.getAttribute("x")),
                width: Number(cell.getAttribute("width")),
                top: Number(cell.getAttribute("y")),
                height: Number(cell.getAttribute("height")),
            }));
            if (cells.length === 0) {
                threads.push(group);
                continue;
            }
            rows.push({
                group,
                cells,
                cycle: cycleOf(group),
                top: cells[0].top,
                bottom: cells[0].top + cells[0].height,
            });
        }
        if (rows.length === 0) return null;
        const children = [...svg.children];
        const firstOf = children.indexOf(groups[0]);
        const lastRow = children.indexOf(rows.at(-1).group);
        // What stands below the rows, whichever cycle it is of: results, what the colours mean.
        const tail = children.slice(lastRow + 1).filter((c) => c.getBBox().y >= rows.at(-1).bottom);
        const heads = children.slice(0, firstOf).filter((c) => c.tagName === "text");
        // Title and operands come first; who shows the figure has said them already.
        const titles = heads.slice(0, 2);
        const crop = Math.max(0, ...titles.map((t) => t.getBBox().y + t.getBBox().height + 4));
        return { rows, threads: threads.filter((group) => !tail.includes(group)), tail, titles, width, height, crop };
    }

    return { keys, cycleOf, veil, rowsOf };
})();
