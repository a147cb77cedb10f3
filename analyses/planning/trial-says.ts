import type { Sentence, Trial } from "../../src/analysis.ts";
import { doseFactor } from "../../src/design/factor.ts";
import { counted } from "../../src/records/counted.ts";
import { inSentence } from "../comparison/level-text.ts";
import { doubtsThatMove, moneyDoubts, withoutText } from "../costs/money-doubts.ts";
import { amountWord, leftPart, useSentence } from "../treatment/dose-words.ts";
import { extraMinutes } from "../treatment/step-words.ts";
import { startsPerYear } from "../treatment/year-of-trays.ts";
import type { JudgedSize, Known } from "./judged-sizes.ts";
import { wantedChance } from "./trial-power.ts";
import type { WorthwhileDifference } from "./worthwhile-difference.ts";

/** A trial that shows nothing below so many worthwhile differences tells next to nothing. Common practice, no source. */
const mostTimesWorth = 3;

/** Why it is better not to run the trial. */
export function againstOf(
  { dose, thing, unit, decided }: Known,
  { gain, cost, isMore, shows = Number.POSITIVE_INFINITY }: JudgedSize,
  worth: WorthwhileDifference,
): Sentence | undefined {
  const what = inSentence(thing.factor.label);
  if (isMore && decided?.verdict === "settled")
    return [
      `It would show nothing new: that ${what} changes the yield is settled. Try another ${what} beside the best.`,
    ];
  if (dose !== undefined) {
    return gain > cost
      ? undefined
      : [`It does not pay: choosing the ${amountWord(dose)} better is worth less in a year than the trial gives up.`];
  }
  return shows <= mostTimesWorth * worth.grams
    ? undefined
    : [
        "It could hardly tell: a difference below ",
        { value: Number.isFinite(shows) ? shows : mostTimesWorth * worth.grams, unit },
        " a tray may well stay hidden",
        `. Take more cooks, or ${thing.kind === "amount" ? `${thing.factor === doseFactor ? "doses" : "amounts"} that lie further apart` : "fewer of them"}.`,
      ];
}

/** Trays, cooks and loads. */
export function sizeSays(
  { traysPerDose, cooks, trays, isMore }: JudgedSize,
  { settings }: Trial,
  perLoad: number,
  each: string,
): Sentence[] {
  const perCook = trays / cooks;
  const loads = Math.ceil(perCook / perLoad);
  const full =
    perCook % perLoad === 0
      ? `${loads === 1 ? "one full load" : `${loads} full loads`}`
      : `${loads === 1 ? "one load" : `${loads} loads`} of up to ${perLoad}`;
  return [
    [
      `Size: ${counted(traysPerDose, "tray")} of each ${each} in ${cooks === 1 ? "one cook" : `each of ${cooks} cooks`}, ${trays} trays in all; ${perCook} trays a cook, ${full}.`,
    ],
    ...(perCook > settings.shelfPlaces
      ? [[`A cook of ${perCook} trays does not fit on ${settings.shelfPlaces} shelf places at once.`]]
      : []),
    ...(cooks === 1 && !isMore
      ? [["One cook cannot show whether another would do the same: take three or more."]]
      : []),
  ];
}

/** What a trial of this size would show. */
export function showsSays(
  { shows, isMore }: JudgedSize,
  worth: WorthwhileDifference,
  { unit, thing }: Known,
): Sentence {
  return shows === undefined
    ? ["It is too small for a test: take more cooks or more trays."]
    : [
        "With a chance of ",
        { value: wantedChance, unit: "share" },
        `${isMore ? ", with the trays so far," : ""} it shows a difference between two ${thing.factor === doseFactor ? "doses" : "levels"} of `,
        { value: shows, unit, digits: 2 },
        unit === "share" ? " of a good tray's yield; worth finding is " : " a good tray; worth finding is ",
        ...(unit === "share" ? worth.because : [{ value: worth.grams, unit, digits: 2 }, " (", ...worth.because, ")"]),
        ".",
      ];
}

/** What the trial is worth and what it takes. */
export function worthSays({ dose, costPerTray, thing, decided }: Known, size: JudgedSize, trial: Trial): Sentence[] {
  const trays: Sentence[] =
    costPerTray === undefined
      ? []
      : [
          [
            "Its trays cost about ",
            { value: size.trays * costPerTray, unit: "money" },
            " as they would anyway, and sell like any others.",
          ],
        ];
  if (dose === undefined) {
    const because = decided === undefined ? `: the book decides nothing about the ${amountWord({ thing })} yet` : "";
    return [[`What knowing is worth is not in it${because}.`], ...trays];
  }
  const { settings } = trial;
  const missing = dose.money === undefined ? "" : withoutText(doubtsThatMove(moneyDoubts(trial), "products"));
  return [
    ["So far: ", ...useSentence(dose, settings)],
    [
      `${dose.decision.priced ? "Money" : "Worth"}: choosing the ${amountWord(dose)} better is worth `,
      ...leftPart(dose, size.gain, settings),
      `${size.gainAtMost ? " at most" : ""} over a year of ${Math.round(startsPerYear(trial))} trays; the trial takes `,
      ...leftPart(dose, size.cost, settings),
      ` beyond an ordinary crop (${extraMinutes} minutes more a tray, and trays at doses that are expected to leave less).`,
    ],
    ...trays,
    ...(missing === "" ? [] : [[`${missing.charAt(0).toUpperCase()}${missing.slice(1)}.`]]),
  ];
}
