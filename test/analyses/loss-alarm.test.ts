import { expect, test } from "vitest";
import { alarmWords, oftenWords } from "../../analyses/losses/alarm-words.ts";
import { isContaminationASignal } from "../../analyses/losses/is-contamination-a-signal.ts";
import { lossAlarm } from "../../analyses/losses/loss-alarm.ts";
import { defaultSettings } from "../../src/records/setting-definitions.ts";
import { trialOfTrays } from "./demo-records.ts";
import { alarmBook, alarmsHeard, falseAlarmsAYear } from "./measure-alarm.ts";
import { renderedSentence } from "./rendered-sentence.ts";

const steady = { cooksAYear: 24, traysPerCook: 6, written: true };

test("a grower with steady losses hears about one false alarm a year, less where much is written down", () => {
  // 20 growers for a year: 1.0 has a standard error of about 0.22; the bench runs more
  expect(falseAlarmsAYear({ ...steady, written: false, share: 0.1 }, 20, 1)).toBeLessThan(1.6);
  expect(falseAlarmsAYear({ ...steady, share: 0.1 }, 6, 1)).toBeLessThan(1.4);
});

test("a bad cook, a bad jar and a person whose trays fail are heard and named", () => {
  const cook = alarmsHeard(
    (_, index) => (index === 23 ? 0.8 : 0.06),
    ({ worst }) => worst!.keys.includes("batch"),
    20,
  );
  expect(cook.named).toBeGreaterThan(0.8);
  const jar = alarmsHeard(
    ({ jar: name }) => (name === "J23" ? 0.8 : 0.06),
    ({ worst }) => worst!.level === "J23",
    20,
  );
  expect(jar.named).toBeGreaterThan(0.7);
  const person = alarmsHeard(
    ({ operator }, index) => (index > 17 && operator === "Bo" ? 0.4 : 0.06),
    ({ worst }) => worst!.level === "Bo",
    20,
  );
  expect(person.named).toBeGreaterThan(0.4);
});

const bad = { ...steady, seed: 5, cooks: 24, share: (_: unknown, cook: number) => (cook === 23 ? 0.9 : 0.05) };

test("the losses answer says it in one voice: the cook, what is usual, how often chance does as much, what to look at", () => {
  const outcome = isContaminationASignal.run(trialOfTrays(alarmBook(bad)));
  if (outcome.kind !== "answer") throw new Error("an answer is expected");
  expect(outcome.certainty).not.toBe("open");
  expect(renderedSentence(outcome.sentence)).toMatch(
    /cook C23 is worse than usual \(\d of 6 trays lost, usually 0\.\d\), which a steady grower sees/,
  );
  expect(outcome.next![0]).toMatchObject({
    rank: "alarm",
    act: ["Look at cook C23 first: its load and its inoculation."],
  });
});

test("a bad cook is named, not the shelf it stood on nor the person who filled it", () => {
  const named = Array.from({ length: 30 }, (_, seed) => {
    const share = (_facts: unknown, cook: number) => (cook === 22 ? 0.7 : 0.08);
    const trays = alarmBook({ ...steady, seed: seed + 1, cooks: 24, share }).map((tray) => {
      const cook = Number(tray.batch!.slice(1));
      return { ...tray, shelf: `S${cook % 3}`, operator: cook % 2 === 0 ? "Ada" : "Bo" };
    });
    const { worst, heard } = lossAlarm(trays, defaultSettings)!;
    return heard ? worst!.keys.join() : "silent";
  });
  expect(named.filter((keys) => keys !== "silent").length).toBeGreaterThanOrEqual(20);
  // five where whatever is least likely is named
  expect(named.filter((keys) => /shelf|operator/.test(keys)).length).toBeLessThanOrEqual(2);
});

test("losses of a cook that still grows count at once; one never seen as usual hides nothing", () => {
  const trays = alarmBook(bad).map((tray) =>
    tray.batch === "C23" && tray.outcome === "good" ? { ...tray, outcome: "growing" as const } : tray,
  );
  expect(lossAlarm(trays, defaultSettings)!.worst!.cook).toBe("C23");
  expect(lossAlarm(trays, defaultSettings)!.heard).toBe(true);
  // an earlier bad cook is not what is usual
  const twice = alarmBook({ ...bad, share: (_, cook) => (cook === 23 || cook === 11 ? 0.9 : 0.05) });
  expect(lossAlarm(twice, defaultSettings)!.worst!.cook).toBe("C23");
  expect(lossAlarm(twice, defaultSettings)!.heard).toBe(true);
});

test("no loss, one cook, no cook: no alarm, no failure", () => {
  const none = lossAlarm(alarmBook({ ...bad, share: () => 0 }), defaultSettings)!;
  expect([none.worst, none.heard, alarmWords(none)]).toEqual([undefined, false, undefined]);
  const first = alarmBook({ ...bad, cooks: 1, share: () => 1 });
  expect(lossAlarm(first, defaultSettings)!.heard).toBe(false);
  const bare = first.map(({ batch: _batch, inoculatedOn: _day, ...tray }) => tray);
  expect(lossAlarm(bare, defaultSettings)).toBeUndefined();
  expect(lossAlarm([], defaultSettings)).toBeUndefined();
});

test("how often, in words", () => {
  expect([3.2, 1.2, 0.9, 0.34, 0.01].map(oftenWords)).toEqual([
    "about 3 times a year",
    "about once a year",
    "about once a year",
    "about once in 3 years",
    "less than once in ten years",
  ]);
});
