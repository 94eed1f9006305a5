// Runs a check of every operand as a WebAssembly module, in a classic worker or under node. A job (see WasmJob.cs) holds the
// module, where each operand bit runs, and the planes that answer. Nothing else is needed: the text may come from a blob.
"use strict";

/** Runs steps from..to of a job; tells "covered" how many steps are done, about ten times a second. */
function check(job, from, to, covered) {
    const module = new WebAssembly.Module(Uint8Array.from(atob(job.module), (c) => c.charCodeAt(0)));
    const { memory, run, start, ones } = new WebAssembly.Instance(module).exports;
    const bytes = new Uint8Array(memory.buffer);
    const plane = (slot) => bytes.subarray(slot * job.stride, slot * job.stride + job.bytes);
    const stepped = [];
    for (const operand of job.operands) {
        for (const bit of operand.bits) {
            if (bit.lane !== undefined) fillLane(plane(bit.slot), bit.lane);
            else stepped[bit.step] = plane(bit.slot);
        }
    }
    const sections = job.sections.map((s) => ({ name: s.name, cases: 0, failures: 0, smallest: null }));
    const count = (output) => {
        const turned = job.lanes < 64 ? onesOfFew(plane(output.slot), job.lanes) : onesOfMany(output.slot);
        return output.turned ? job.lanes - turned : turned;
    };
    const onesOfMany = (slot) => ones(slot * job.stride, slot * job.stride + job.lanes / 8);

    let told = performance.now();
    for (let step = from; step < to; step++) {
        setStep(stepped, step, step === from);
        if (start && (step === from || step % job.restart === 0)) start();
        run();
        job.sections.forEach((section, i) => {
            sections[i].cases += count(section.cases);
            const failures = count(section.fails);
            if (failures > 0) {
                sections[i].failures += failures;
                search(job, sections[i], plane(section.fails.slot), section.fails.turned, step);
            }
        });
        if (covered && step % 64 === 0 && performance.now() - told > 100) {
            told = performance.now();
            covered(step + 1 - from);
        }
    }
    return { to, sections };
}

/** The pattern of a lane bit: bit k of byte i stands for lane 8 i + k. */
function fillLane(plane, lane) {
    const within = [0xaa, 0xcc, 0xf0];
    for (let i = 0; i < plane.length; i++) plane[i] = lane < 3 ? within[lane] : (i >> (lane - 3)) & 1 ? 0xff : 0;
}

/** Steps count up: a bit changes when all lower ones have come back to 0. Steps may be longer than the bits of "&". */
function setStep(stepped, step, all) {
    for (let bit = 0; bit < stepped.length && (all || step % 2 ** bit === 0); bit++) {
        stepped[bit].fill(Math.floor(step / 2 ** bit) % 2 ? 0xff : 0);
    }
}

function onesOfFew(plane, lanes) {
    let sum = 0;
    for (let lane = 0; lane < lanes; lane++) sum += (plane[lane >> 3] >> (lane & 7)) & 1;
    return sum;
}

/** Looks for smaller failing operands, unless none of this step can be. Most cases are put aside by their sum alone. */
function search(job, section, plane, turned, step) {
    if (section.smallest && leastSum(job, step) > section.smallest.rank[0]) return;
    job.ofLane ??= job.operands.map((_, i) => Float64Array.from({ length: job.lanes }, (_, k) => bitsOfLane(job, i, k)));
    const ofStep = job.operands.map((_, i) => bitsOfStep(job, i, step));
    for (let lane = 0; lane < job.lanes; lane++) {
        if (((plane[lane >> 3] >> (lane & 7)) & 1) === (turned ? 1 : 0)) continue;
        let sum = 0;
        for (let i = 0; i < ofStep.length; i++) sum += Math.abs(number(job, i, ofStep[i] + job.ofLane[i][lane]));
        if (section.smallest && sum > section.smallest.rank[0]) continue;
        const operands = operandsAt(job, step, lane);
        const rank = rankOf(job, operands);
        if (!section.smallest || isBefore(rank, section.smallest.rank)) section.smallest = { operands, rank };
    }
}

/** The part of an operand's bits that runs over the lanes, and the part that runs over the steps. */
function bitsOfLane(job, operand, lane) {
    return job.operands[operand].bits.reduce(
        (s, b, i) => s + (b.lane !== undefined ? ((lane >> b.lane) & 1) * 2 ** i : 0),
        0
    );
}

function bitsOfStep(job, operand, step) {
    return job.operands[operand].bits.reduce(
        (s, b, i) => s + (b.lane === undefined ? (Math.floor(step / 2 ** b.step) % 2) * 2 ** i : 0),
        0
    );
}

/** The operands' bits in one case. */
function operandsAt(job, step, lane) {
    return job.operands.map((_, i) => bitsOfLane(job, i, lane) + bitsOfStep(job, i, step));
}

/** The number that an operand's bits stand for. */
function number(job, operand, bits) {
    const { signed, bits: places } = job.operands[operand];
    return signed && bits >= 2 ** (places.length - 1) ? bits - 2 ** places.length : bits;
}

/** The order of Rank: smaller sum of magnitudes, fewer negatives, then from the last operand on the one nearer to 0, 3 before -3. */
function rankOf(job, operands) {
    const numbers = operands.map((bits, i) => number(job, i, bits));
    const sum = numbers.reduce((s, n) => s + Math.abs(n), 0);
    const negatives = numbers.filter((n) => n < 0).length;
    return [sum, negatives, ...numbers.reverse().map((n) => (n > 0 ? 2 * n - 1 : -2 * n))];
}

function isBefore(a, b) {
    const i = a.findIndex((x, k) => x !== b[k]);
    return i >= 0 && a[i] < b[i];
}

/** A floor under the sum of magnitudes over all cases of a step: see CaseSpace.LeastSum. */
function leastSum(job, step) {
    const [least, most] = [operandsAt(job, step, 0), operandsAt(job, step, job.lanes - 1)];
    return job.operands.reduce((sum, { signed, bits }, i) => {
        const border = 2 ** (bits.length - 1);
        if (!signed || most[i] < border) return sum + least[i];
        const below = 2 * border - most[i];
        return sum + (least[i] >= border ? below : Math.min(least[i], below));
    }, 0);
}

if (typeof self !== "undefined" && typeof self.postMessage === "function") {
    // In a worker: { job, from, to } in; { covered } now and then and { result } or { error } out.
    self.onmessage = ({ data: { job, from, to } }) => {
        try {
            self.postMessage({ result: check(job, from, to, (covered) => self.postMessage({ covered })) });
        } catch (error) {
            self.postMessage({ error: String(error) });
        }
    };
} else if (typeof module !== "undefined") {
    module.exports = { check };
}
