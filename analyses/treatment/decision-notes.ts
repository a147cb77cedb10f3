import type { Sentence, Trial } from "../../src/analysis.ts";
import { type Cap, couldShowAfter, type Decision, type LeftOutReason } from "../../src/decisions/verdict/index.ts";
import { counted, firstOf } from "../../src/records/counted.ts";
import { addTo } from "../../src/records/grouped.ts";
import { capital, inRow, inSentence } from "../comparison/level-text.ts";
import { settledSince } from "./earlier-readings.ts";
import { isForSubstrate, substrateWords } from "./substrate-beside.ts";
import type { TreatmentDecision } from "./treatment-decision.ts";
import { levelOf } from "./verdict-words.ts";

/** From this coefficient of variation on trays treated alike differ a lot. Common practice, no source. */
const largeSpread = 0.3;

const groupedBy: Readonly<Record<Decision["grouping"]["by"], string>> = {
  cook: "Trays are compared within their cooks.",
  day: "No cooks are written down, so trays inoculated on one day count as one cook.",
  "assumed-one-cook": "Neither cook nor date is written down, so the trays count as one cook.",
  "row-blocks":
    "Neither cooks nor dates are written down, so trays that stand together in the sheet count as one cook.",
};

/** What limits an answer, said to a grower, by the reason of the cap. */
export const capNotes: Readonly<Partial<Record<Cap["reason"], string>>> = {
  "one-cook": "One cook cannot show what the next one does.",
  "cook-assumed": "Write down the cook of each tray: with it more can be said.",
  "cooks-not-recorded":
    "Write down the cook or the inoculation date of each tray: without them nothing can be settled.",
  "levels-follow-rows":
    "Trays of one level stand together in the sheet: where these are several cooks, cooks and levels cannot be separated; the range allows for that.",
  "levels-between-row-blocks": "Levels do not vary among trays that stand together, so no range can be given.",
  "cooks-undated": "Type each cook's own inoculation date: without them a change with time cannot be ruled out.",
  "flushes-follow-level": "Some levels were picked more often than others: what they gave more may be later flushes.",
  "substrate-follows-level":
    "Some levels had more substrate in their trays than others: what they gave more may be that.",
  "unfinished-trays": "Trays that are not there yet could still change this.",
  "losses-follow-level":
    "More was lost at some levels than at others, so the good trays alone may flatter one of them: see started trays.",
};

/** What flushes and substrate do is said with their figures. */
const saidWithFigures: ReadonlyArray<string> = ["flushes-follow-level", "substrate-follows-level"];

const leftOutWords: Readonly<Record<LeftOutReason, string>> = {
  "no-cook": "have no cook",
  "no-day": "have no inoculation date",
  "cook-with-one-level": "stand in a cook with one level only",
  "stray-in-its-cook": "have another level than the rest of their cook",
  "not-joined-to-the-others": "have levels that never stood beside the others in a cook",
  "tied-to-the-other-factor": "stand where two things changed together",
};

/** "Trays treated alike differ by about 12 %." */
function spreadNote({ levels, traySpread }: Decision): Sentence[] {
  const good = levels.flatMap(({ mean, started, lost }) =>
    mean === undefined ? [] : [{ mean, trays: started - lost }],
  );
  const trays = good.reduce((sum, one) => sum + one.trays, 0);
  const mean = good.reduce((sum, one) => sum + (one.mean * one.trays) / trays, 0);
  // money, and what lost trays gave, may be 0 or less: a share of that says nothing
  if (levels.some(({ values }) => values.some(({ value }) => value <= 0))) return [];
  if (traySpread === undefined || traySpread.degreesOfFreedom < 2 || !(mean > 0)) return [];
  const share = Math.sqrt(traySpread.variance) / mean;
  return [
    [
      "Trays treated alike in one cook differ by about ",
      { value: share, unit: "share", digits: 2 },
      share > largeSpread ? ", which is a lot: look for what else differs between them." : ".",
    ],
  ];
}

/** What more cooks could show is said where it is below this share of what these could. */
const smallerEnough = 0.97;

/** What more cooks like these would do. */
function moreCooksNote({ decision, settings, response }: TreatmentDecision): Sentence[] {
  // more trays filled as unlike tell no more
  const isTied = isForSubstrate(decision);
  if (decision.verdict === "settled" || isTied || decision.difference === undefined) return [];
  const [one, three] = [1, 3].map((cooks) => couldShowAfter(decision, cooks, settings));
  if (one === undefined || three === undefined) return [];
  const { unit } = response;
  const of = (value: number) => ({ value, unit, digits: 2 });
  const least = smallerEnough * decision.difference.couldHaveShown;
  if (three > least) return [];
  return [
    one > least
      ? ["A difference of about ", of(three), " would show after three more cooks like these, four times in five."]
      : [
          "A difference of about ",
          of(one),
          " would show after one more cook like these, of about ",
          of(three),
          " after three, four times in five.",
        ],
  ];
}

/** Where the calendar, or something that always came with it, fits as well as the thing itself. */
function confoundedNotes(of: TreatmentDecision, ties: ReadonlyArray<string>): Sentence[] {
  const what = inSentence(of.thing.factor.label);
  return [
    ...(of.thing.isPeriod ? [[`This shows that the periods differ, not why.`]] : []),
    ...(ties.length === 0
      ? []
      : [[`${capital(inRow(ties))} changed together with ${what}: what is said of one may be due to the other.`]]),
    ...of.beside.tied.map(({ factor }): Sentence => {
      const other = inSentence(factor.label);
      return [
        `${factor.label} went together with ${what} in part, and too few trays tell the two apart: some of what is said of ${what} may be due to ${other}.`,
      ];
    }),
  ];
}

/** "Supplement amount and my_lamp varied in the same cooks and are taken out." */
function takenOutNote({ beside: { takenOut } }: TreatmentDecision): Sentence[] {
  const names = takenOut.map(({ factor }, at) => (at === 0 ? factor.label : inSentence(factor.label)));
  if (names.length === 0) return [];
  return [[`${inRow(names)} varied in the same cooks and ${names.length === 1 ? "is" : "are"} taken out.`]];
}

/** How the first pickings alone compare, where some levels were picked more often than others. */
function flushNotes({ flushes, thing: { factor }, response: { unit } }: TreatmentDecision): Sentence[] {
  if (flushes === undefined) return [];
  const { most, least, first } = flushes;
  const times = (value: number) => ({ value, unit: "factor", digits: 2 }) as const;
  const known = first?.difference?.interval;
  const alone: Sentence =
    known === undefined
      ? [" Weigh each flush by itself, and keep every tray for as many."]
      : [
          " In the first flush alone ",
          levelOf(factor, first!.difference!.to),
          " gave ",
          { value: first!.difference!.estimate, unit, signed: true, digits: 2 },
          " against ",
          first!.difference!.from === undefined ? "the others" : levelOf(factor, first!.difference!.from),
          " (",
          { from: known.lower, to: known.upper, unit, signed: true },
          "). Keep every tray for as many flushes.",
        ];
  return [
    [
      "A good tray of ",
      levelOf(factor, most.level),
      " was picked ",
      times(most.pickings),
      " times, one of ",
      levelOf(factor, least.level),
      " ",
      times(least.pickings),
      ": what it gave more may be later flushes.",
      ...alone,
    ],
  ];
}

/** What trays of a level gave for as much substrate as the others held; where that lowers the answer, its sentence says so. */
function substrateNote({ substrate, decision, thing: { factor }, response: { unit } }: TreatmentDecision): Sentence[] {
  const { difference } = decision;
  if (substrate === undefined || difference === undefined) return [];
  if (isForSubstrate(decision)) return [];
  return [["Trays of ", levelOf(factor, difference.to), ...substrateWords(substrate, unit, 1), "."]];
}

/** Asked once, where it matters: whole cooks are compared, and nobody has said who chose. */
function lotNote(trial: Trial, of: TreatmentDecision): Sentence[] {
  if (of.decision.method !== "whole-cooks" || trial.settings.dosesDrawnByLot !== "" || of.thing.isPeriod) return [];
  const what = inSentence(of.thing.factor.label);
  return [
    [
      `Did chance decide which cook got which ${what}? Type doses_drawn_by_lot,yes in settings.csv if so: more can then be said. Until then the order of the cooks is allowed for.`,
    ],
  ];
}

function sinceNote({ readings, decision, settledBefore }: TreatmentDecision): Sentence[] {
  const cooks = settledSince(readings, decision);
  if (cooks === undefined) return [];
  return [
    [
      `Settled since ${counted(cooks, "cook was", "cooks were")} finished${settledBefore ? ", and nothing since speaks against it" : ""}.`,
    ],
  ];
}

function leftOutNotes({ decision, gathered }: TreatmentDecision): Sentence[] {
  const byReason = new Map<LeftOutReason, string[]>();
  for (const { row, reason } of decision.leftOut) addTo(byReason, reason, gathered.byRow[row]!.trayId);
  return [...byReason].map(([reason, names]) => [
    `${counted(names.length, "tray does", "trays do")} not count because they ${leftOutWords[reason]}: ${firstOf(names, 6)}.`,
  ]);
}

/**
 * How a decision was made, and what a reader could get wrong.
 * @param ties what always changed together with the thing, inside a sentence
 */
export function decisionNotes(
  trial: Trial,
  of: TreatmentDecision,
  ties: ReadonlyArray<string>,
): { method: Sentence[]; caveats: Sentence[] } {
  const { grouping, caps, holdsForOneReading, p, significance, withinUnits } = of.decision;
  const filled = grouping.filled.map(({ row, cook }) => `${of.gathered.byRow[row]!.trayId} (${cook})`);
  const { jarsAgain } = of.gathered;
  return {
    method: [
      [groupedBy[grouping.by]],
      ...takenOutNote(of),
      ...(withinUnits === undefined
        ? []
        : [[`Levels are compared within each ${withinUnits}, which went with them in part.`]]),
      ...(filled.length === 0
        ? []
        : [[`A blank cook was filled from the only cook of its day: ${filled.join(", ")}.`]]),
      ...(grouping.merged.length === 0
        ? []
        : [
            [
              `Cooks that share a shelf, jar or chamber with one level count as one: ${grouping.merged.map((names) => names.join(" and ")).join("; ")}.`,
            ],
          ]),
      ...(jarsAgain.length === 0
        ? []
        : [
            [
              `A jar's name that comes back more than three weeks later counts as another jar: ${jarsAgain.slice(0, 6).join(", ")}.`,
            ],
          ]),
      ...(p === undefined
        ? []
        : [
            [
              "Deciding p ",
              { value: p, unit: "p" },
              ...(of.isMain ? (["; settled below ", { value: significance, unit: "p" }] as const) : []),
              ".",
            ] satisfies Sentence,
          ]),
    ],
    caveats: [
      ...sinceNote(of),
      ...spreadNote(of.decision),
      ...moreCooksNote(of),
      ...flushNotes(of),
      ...substrateNote(of),
      ...confoundedNotes(of, ties),
      ...caps.flatMap(({ reason }): Sentence[] =>
        capNotes[reason] === undefined || saidWithFigures.includes(reason) ? [] : [[capNotes[reason]]],
      ),
      ...lotNote(trial, of),
      ...(holdsForOneReading && p !== undefined
        ? [["This holds for one reading: read again after every cook, a chance finding would come up sooner or later."]]
        : []),
      ...leftOutNotes(of),
    ],
  };
}
