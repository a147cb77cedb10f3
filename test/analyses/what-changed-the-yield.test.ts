import { expect, test } from "vitest";
import { whatChangedTheDays } from "../../analyses/treatment/what-changed-the-days.ts";
import { whatChangedTheYield } from "../../analyses/treatment/what-changed-the-yield.ts";
import { springTrays, summerTrays } from "../../data-samples/demo-book.ts";
import { trueYieldGrams, truth } from "../../data-samples/demo-trial.ts";
import { logEntry } from "../../src/records/log-entry.ts";
import { defaultSettings } from "../../src/records/setting-definitions.ts";
import { sentenceText } from "../../src/report/format-quantity.ts";
import { recordOfDemoTray, trayRecord, trialOfTrays } from "./demo-records.ts";
import { simulateBook } from "./simulated-book.ts";

const demoTrial = trialOfTrays([...springTrays(), ...summerTrays()].map(recordOfDemoTray));

test("the demo book's true gain in yield lies within the interval, and is reported as settled", () => {
  const outcome = whatChangedTheYield.run(demoTrial);
  if (outcome.kind !== "answer") throw new Error(JSON.stringify(outcome));
  expect(outcome.certainty).toBe("settled");
  const [good] = outcome.estimates;
  const [low, high] = [Math.min(...truth.dosesMillilitres), Math.max(...truth.dosesMillilitres)];
  const trueGain = trueYieldGrams(high) - trueYieldGrams(low);
  expect(good!.low).toBeLessThan(trueGain);
  expect(good!.high).toBeGreaterThan(trueGain);
});

test("the demo book's true effect on days to colonise lies within the interval", () => {
  const outcome = whatChangedTheDays.run(demoTrial);
  if (outcome.kind !== "answer") throw new Error(JSON.stringify(outcome));
  expect(outcome.certainty).toBe("settled");
  const [estimate] = outcome.estimates;
  const { dosesMillilitres, colonisation } = truth;
  const trueChange = colonisation.daysPerMillilitre * (Math.max(...dosesMillilitres) - Math.min(...dosesMillilitres));
  expect(estimate!.low).toBeLessThan(trueChange);
  expect(estimate!.high).toBeGreaterThan(trueChange);
});

test("a peak inside is told by the dose that gave most, not by the small difference of the ends", () => {
  const trays = simulateBook({
    ...{ cooks: 6, traysPerDose: 3, doses: [2, 5, 8, 11, 14], cookSd: 2, traySd: 1.5, seed: 5 },
    mean: (dose) => 36 - 0.2 * (dose - 8) ** 2,
  });
  const outcome = whatChangedTheYield.run(trialOfTrays(trays));
  expect(outcome).toMatchObject({
    certainty: "settled",
    figure: { label: "gave most, dry a good tray", value: 8, unit: "mL" },
    strip: { kind: "groups" },
  });
  expect(outcome.short?.[0]).toBe("Inoculum matters, but not steadily: ");
  const said = outcome.kind === "answer" ? JSON.stringify(outcome.sentence) : "";
  expect(said).toContain("gave most");
});

const tray = (id: string, inoculumMillilitres: number, dryGrams: number, given = {}) =>
  trayRecord({ trayId: id, inoculumMillilitres, dryGrams, ...given });

test("one cook per dose: cannot tell, and says what would settle it", () => {
  const trays = [5, 10, 15].flatMap((dose, cook) =>
    Array.from({ length: 8 }, (_, index) =>
      tray(`${cook}-${index}`, dose, 10 + dose + (index % 4), { batch: `C${cook}` }),
    ),
  );
  const outcome = whatChangedTheYield.run(trialOfTrays(trays));
  expect(outcome.kind).toBe("cannot-tell");
  if (outcome.kind !== "cannot-tell") return;
  expect(outcome.reason.join("")).toContain("cooks of its own");
  expect(outcome.wouldSettle.length).toBeGreaterThan(0);
  // the front shows what was seen all the same: plain means, 10 + dose + 1.5 each
  const grams = (value: number) => ({ value, unit: "g", digits: 3 });
  expect(outcome).toMatchObject({
    figure: { ...grams(21.5), label: "dry a good tray, mean" },
    strip: { kind: "groups", groups: [{ value: 16.5 }, { value: 21.5 }, { value: 26.5 }] },
  });
  expect(sentenceText(outcome.short!, defaultSettings)).toBe(
    "5\u00a0mL 16.5\u00a0g, 10\u00a0mL 21.5\u00a0g and 15\u00a0mL 26.5\u00a0g; they cannot be compared yet.",
  );
});

test("one jar per dose inside one cook: cannot tell", () => {
  const trays = [5, 10].flatMap((dose, jar) =>
    Array.from({ length: 10 }, (_, index) =>
      tray(`${jar}-${index}`, dose, 10 + (index % 5), { batch: "C1", jar: `J${jar}` }),
    ),
  );
  const outcome = whatChangedTheYield.run(trialOfTrays(trays));
  if (outcome.kind !== "cannot-tell") throw new Error(JSON.stringify(outcome));
  expect(outcome.reason.join("")).toContain("jar or chamber of its own");
  // two levels in one cook are there already: what is missing is a second jar for each
  expect(outcome.missing).toEqual({
    kind: "layout",
    need: "each dose on two shelves, in two chambers or from two jars",
  });
  expect(outcome.next).toEqual([
    {
      rank: "trial",
      act: ["Swap shelves, jars or chambers between levels each cook."],
      because: ["Each dose had one shelf, jar or chamber of its own."],
      see: "waiting",
    },
  ]);
});

test("one tray per dose gets its difference, its range and a chance, and never a settled word", () => {
  const outcome = whatChangedTheYield.run(trialOfTrays([tray("a", 5, 10), tray("b", 10, 12)]));
  if (outcome.kind !== "answer") throw new Error(JSON.stringify(outcome));
  expect(outcome.certainty).toBe("open");
  expect(outcome.estimates[0]!.value).toBeCloseTo(2, 10);
  expect(outcome.estimates[0]!.low).toBeLessThan(0);
  expect(outcome.charts[0]).toMatchObject({
    kind: "doses",
    doses: [{ points: [{ tray: "a" }] }, { points: [{ tray: "b" }] }],
  });
});

test("three and three trays of one cook: the difference 4, from -5.048 to 13.048, of the rules' own worked example", () => {
  // the project's own rules for one cook; the same values are computed by hand in test/decisions
  const trays = [30, 33, 36, 35, 39, 37].map((grams, i) => tray(`t${i}`, i < 3 ? 3 : 9, grams, { batch: "C1" }));
  const outcome = whatChangedTheYield.run(trialOfTrays(trays));
  if (outcome.kind !== "answer") throw new Error(JSON.stringify(outcome));
  expect(outcome.estimates[0]).toMatchObject({ value: 4 });
  expect(outcome.estimates[0]!.low).toBeCloseTo(-5.048, 3);
  expect(outcome.estimates[0]!.high).toBeCloseTo(13.048, 3);
});

test("a strain, a supplement or a column of one's own is asked about as a dose is", () => {
  const cooks = ["A", "B", "C", "D"];
  const book = (of: (place: number) => object) =>
    trialOfTrays(
      cooks.flatMap((batch, cook) =>
        Array.from({ length: 6 }, (_, place) =>
          trayRecord({
            trayId: `${batch}${place}`,
            batch,
            dryGrams: 30 + cook + 9 * (place % 2) + (place % 3),
            ...of(place),
          }),
        ),
      ),
    );
  for (const of of [
    (place: number) => ({ strain: place % 2 ? "grey" : "white" }),
    (place: number) => ({ supplement: place % 2 ? "bran" : "none" }),
    (place: number) => ({ factors: { bag: place % 2 ? "wide" : "narrow" } }),
  ]) {
    const outcome = whatChangedTheYield.run(book(of));
    if (outcome.kind !== "answer") throw new Error(JSON.stringify(outcome));
    expect(outcome.certainty).toBe("settled");
    expect(Math.abs(outcome.estimates[0]!.value)).toBeGreaterThan(7);
  }
});

test("lost trays count as nothing per started tray and are named as left out per good tray", () => {
  const trays = Array.from({ length: 12 }, (_, index) => index).flatMap((index) =>
    [5, 10].map((dose) =>
      dose === 10 && index % 2 === 0
        ? trayRecord({ trayId: `${dose}-${index}`, inoculumMillilitres: dose, outcome: "contaminated" })
        : tray(`${dose}-${index}`, dose, 20 + (index % 3) + dose / 5),
    ),
  );
  const outcome = whatChangedTheYield.run(trialOfTrays(trays));
  if (outcome.kind !== "answer") throw new Error("expected an answer");
  expect(outcome.estimates[0]!.value).toBeCloseTo(1, 10);
  expect(outcome.estimates[1]!.value).toBeLessThan(0);
  expect(outcome.excluded.flatMap(({ trays: names }) => names)).toHaveLength(6);
});

/** Two doses in each of some cooks, a fortnight apart, the higher one with `gain` more. */
function stepBook(
  cooks: number,
  gain: number,
  given: (place: { cook: number; high: boolean; copy: number }) => object,
) {
  return Array.from({ length: cooks }, (_, cook) =>
    [false, true].flatMap((high) =>
      Array.from({ length: 3 }, (_, copy) =>
        tray(`C${cook + 1}-${high ? 9 : 3}-${copy}`, high ? 9 : 3, 30 + cook + (high ? gain + cook / 4 : 0) + copy, {
          batch: `C${cook + 1}`,
          inoculatedOn: new Date(Date.UTC(2026, 0, 1 + 28 * cook)).toISOString().slice(0, 10),
          ...given({ cook, high, copy }),
        }),
      ),
    ),
  ).flat();
}

test("a jar's name that comes back a month later is another jar; the same jar within three weeks is one", () => {
  const jars = ({ high }: { high: boolean }) => ({ jar: high ? "jar 2" : "jar 1" });
  const far = whatChangedTheYield.run(trialOfTrays(stepBook(4, 8, jars)));
  expect(far.kind === "answer" && far.certainty).toBe("settled");
  const near = stepBook(4, 8, jars).map((one, at) => ({ ...one, inoculatedOn: `2026-01-0${1 + Math.floor(at / 6)}` }));
  expect(whatChangedTheYield.run(trialOfTrays(near)).kind).toBe("cannot-tell");
});

test("a supplement that always came with the dose: cannot tell; crossed with it, it is taken out", () => {
  const tied = stepBook(4, 8, ({ high }) => ({ supplement: high ? "bran" : "none" }));
  expect(whatChangedTheYield.run(trialOfTrays(tied)).kind).toBe("cannot-tell");
  const crossed = stepBook(4, 8, ({ copy, cook }) => ({ supplement: (copy + cook) % 2 ? "bran" : "none" }));
  const outcome = whatChangedTheYield.run(trialOfTrays(crossed));
  if (outcome.kind !== "answer") throw new Error(JSON.stringify(outcome.reason));
  expect(outcome.method.flat().join("")).toContain("taken out");
});

test("settled at the planned reading, it stays settled while later cooks do not speak against it", () => {
  const names = (count: number) => Array.from({ length: count }, (_, cook) => `C${cook + 1}`);
  // gains 8, 2, 7 and 3 g: p between the level of a later reading and that of the planned one
  const trays = stepBook(4, 0, ({ cook, high, copy }) => ({
    dryGrams: 30 + copy + (high ? [8, 5, 7, 4.5][cook]! : 0),
  }));
  const trial = { ...trialOfTrays(trays, { plannedCooks: 3 }), reading: "other" as const };
  const without = whatChangedTheYield.run(trial);
  const within = whatChangedTheYield.run({ ...trial, readings: [names(3), names(4)] });
  if (without.kind !== "answer" || within.kind !== "answer") throw new Error("expected answers");
  expect(without.certainty).toBe("leaning");
  expect(within.certainty).toBe("settled");
  expect(within.test?.settledBefore).toBe(true);
  expect(within.caveats.flat().join("")).toContain("Settled since 3 cooks");
});

test("trays of a cook that still comes in are looks of their own: the level is that of the finished cooks", () => {
  const names = (count: number) => Array.from({ length: count }, (_, cook) => `C${cook + 1}`);
  // of finished cooks alone the gains 1, 8, 2 and 6 g show nothing; a fifth cook, not yet finished, adds 6 g
  const gains = (all: number[]) =>
    stepBook(all.length, 0, ({ cook, high, copy }) => ({ dryGrams: 30 + copy + (high ? all[cook]! : 0) }));
  const word = (all: number[], finished: number) => {
    const outcome = whatChangedTheYield.run({
      ...trialOfTrays(gains(all)),
      reading: "awaited",
      readings: [names(1), names(finished)],
    });
    return outcome.kind === "answer" ? outcome.certainty : outcome.reason.join("");
  };
  expect(word([1, 8, 2, 6], 4)).toBe("leaning");
  expect(word([1, 8, 2, 6, 6], 5)).toBe("settled");
  expect(word([1, 8, 2, 6, 6], 4)).toBe("leaning");
  // settled by the finished cooks, and a further one does not speak against it
  expect(word([8, 5, 7, 4.5], 4)).toBe("settled");
  expect(word([8, 5, 7, 4.5, 3], 4)).toBe("settled");
});

test("days: trays still waiting at the quick dose keep it at leaning; a few at the slow dose do not", () => {
  const date = (days: number) => new Date(Date.UTC(2026, 0, 1 + days)).toISOString().slice(0, 10);
  const trays = stepBook(4, 8, ({ cook, high, copy }) => ({
    inoculatedOn: date(28 * cook),
    colonisedOn: date(28 * cook + (high ? 10 : 15) + copy + (cook % 2)),
  }));
  const waiting = (dose: number, count: number) =>
    Array.from({ length: count }, (_, at) =>
      trayRecord({
        trayId: `w${dose}-${at}`,
        batch: "C4",
        inoculumMillilitres: dose,
        inoculatedOn: date(84),
        outcome: "growing",
      }),
    );
  const certainty = (more: ReturnType<typeof waiting>) => {
    const outcome = whatChangedTheDays.run(trialOfTrays([...trays, ...more]));
    return outcome.kind === "answer" ? outcome.certainty : outcome.reason.join("");
  };
  expect(certainty([])).toBe("settled");
  expect(certainty(waiting(3, 2))).toBe("settled");
  expect(certainty(waiting(9, 12))).not.toBe("settled");
});

test("one supplement written and blank beside it: asked, since blank may be none or not written down", () => {
  const trays = Array.from({ length: 12 }, (_, place) =>
    trayRecord({
      trayId: `${place}`,
      batch: `C${place % 2}`,
      dryGrams: 30 + place,
      supplement: place % 3 === 0 ? undefined : "wheat bran",
    }),
  );
  const outcome = whatChangedTheYield.run(trialOfTrays(trays));
  if (outcome.kind !== "cannot-tell") throw new Error(JSON.stringify(outcome));
  expect(outcome.reason.map((part) => (typeof part === "string" ? part : "#")).join("")).toContain(
    "wheat bran is the only supplement written, and 4 finished trays have none written.",
  );
  expect(outcome.wouldSettle.join("")).toContain("Type none");
});

test("where nothing can be compared the means seen are said, and a remedy that is still open", () => {
  const said = (trays: Parameters<typeof trialOfTrays>[0]) => {
    const outcome = whatChangedTheYield.run(trialOfTrays(trays));
    if (outcome.kind !== "cannot-tell") throw new Error(JSON.stringify(outcome));
    const plain = (parts: typeof outcome.reason) =>
      parts
        .map((part) => (typeof part === "string" ? part : "value" in part ? `${part.value} ${part.unit}` : ""))
        .join("");
    return [plain(outcome.reason), plain(outcome.wouldSettle)];
  };
  const one = tray("1", 3, 28, { batch: "A" });
  const growing = (id: string, dose: number) => ({ ...tray(id, dose, 0, { batch: "A" }), dryGrams: undefined });
  const lost = (id: string, dose: number) => ({ ...growing(id, dose), outcome: "contaminated" as const });
  expect(said([one, { ...growing("2", 9), outcome: "growing" }])).toEqual([
    "Cannot tell what changed the yield: only one level of inoculum has a finished tray so far. Seen so far: 28 g dry a good tray, of 1 tray.",
    "Wait for the trays that still grow.",
  ]);
  expect(said([one, tray("2", 3, 30)])[0]).toContain("treated alike. Seen so far: 29 g dry a good tray, of 2 trays.");
  const issues = [logEntry({ file: "", rule: "no-varied-column", severity: "error", reason: "" })];
  const untold = { ...trialOfTrays([one, tray("2", 3, 30)]), issues };
  expect(JSON.stringify(whatChangedTheYield.run(untold))).toContain("no column says what any tray was given");
  const named = Array.from({ length: 26 }, (_, at) => tray(`${at}`, 3, 28, { batch: "A", strain: `S${at % 13}` }));
  expect(said(named)[0]).toContain("13 names of strain are too many to compare, with few trays of each.");
  expect(said([one, lost("2", 9)])).toEqual([
    "Cannot tell whether inoculum mattered for yield: only one dose has trays with a result. Seen so far: 3 mL 28 g dry a good tray; none of 9 mL.",
    "Start more trays of 9 mL: none was picked.",
  ]);
  expect(said([lost("1", 3), lost("2", 9)])[0]).toContain("every finished tray was lost");
  expect(whatChangedTheYield.run(trialOfTrays([lost("1", 3)])).next).toMatchObject([{ rank: "alarm" }]);
});

test("pairs of levels are told apart only where the levels are settled to differ", () => {
  const pairsOf = (gain: number) => {
    const form = { seed: 3, cooks: 4, traysPerDose: 3, doses: [3, 6, 9], cookSd: 2, traySd: 3 };
    const outcome = whatChangedTheYield.run(trialOfTrays(simulateBook({ ...form, mean: (dose) => 30 + gain * dose })));
    if (outcome.kind !== "answer") throw new Error(JSON.stringify(outcome));
    return [outcome.certainty, outcome.tables.some(({ caption }) => caption === "Which levels of inoculum differ")];
  };
  expect(pairsOf(3)).toEqual(["settled", true]);
  const [certainty, shown] = pairsOf(0.3);
  expect(certainty).not.toBe("settled");
  expect(shown).toBe(false);
});
