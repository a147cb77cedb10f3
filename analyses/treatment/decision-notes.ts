import type { Sentence } from "../../src/analysis.ts";
import type { Cap, Decision, LeftOutReason } from "../../src/decisions/verdict/index.ts";
import type { TreatmentDecision } from "./treatment-decision.ts";

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
  "levels-between-row-blocks": "Levels do not vary among trays that stand together, so no range can be given.",
  "cooks-undated": "Type the inoculation dates: without them a change with time cannot be ruled out.",
  "losses-follow-level":
    "Losses go with the level, so the good trays alone flatter one of them: see the figure of started trays.",
};

const leftOutWords: Readonly<Record<LeftOutReason, string>> = {
  "no-cook": "have no cook",
  "no-day": "have no inoculation date",
  "cook-with-one-level": "stand in a cook with one level only",
  "stray-in-its-cook": "have another level than the rest of their cook",
  "not-joined-to-the-others": "have levels that never stood beside the others in a cook",
  "tied-to-the-other-factor": "stand where two things changed together",
};

/** "Trays of one level differ by about 12 %." */
export function spreadNote({ levels, grouping }: Decision): Sentence[] {
  let squares = 0;
  let freedom = 0;
  let sum = 0;
  let count = 0;
  for (const { values } of levels) {
    if (values.length === 0) continue;
    const mean = values.reduce((total, { value }) => total + value, 0) / values.length;
    for (const { value } of values) squares += (value - mean) ** 2;
    freedom += values.length - 1;
    sum += mean * values.length;
    count += values.length;
  }
  if (freedom < 2 || !(sum > 0)) return [];
  const share = Math.sqrt(squares / freedom) / (sum / count);
  const among =
    grouping.groups.length > 1
      ? "Trays of one level, cooks taken together, differ by about "
      : "Trays of one level differ by about ";
  return [
    [
      among,
      { value: share, unit: "share", digits: 2 },
      share > largeSpread ? ", which is a lot: look for what else differs between them." : ".",
    ],
  ];
}

function leftOutNotes({ decision, gathered }: TreatmentDecision): Sentence[] {
  const byReason = new Map<LeftOutReason, string[]>();
  for (const { row, reason } of decision.leftOut) {
    const names = byReason.get(reason) ?? [];
    byReason.set(reason, names);
    names.push(gathered.trayOf.get(row)!.trayId);
  }
  return [...byReason].map(([reason, names]) => [
    `${names.length === 1 ? "1 tray does" : `${names.length} trays do`} not count because they ${leftOutWords[reason]}: ${names.slice(0, 6).join(", ")}${names.length > 6 ? ` and ${names.length - 6} more` : ""}.`,
  ]);
}

/** How a decision was made, and what a reader could get wrong. */
export function decisionNotes(of: TreatmentDecision): { method: Sentence[]; caveats: Sentence[] } {
  const { grouping, caps, holdsForOneReading, p, significance } = of.decision;
  const filled = grouping.filled.map(({ row, cook }) => `${of.gathered.trayOf.get(row)!.trayId} (${cook})`);
  return {
    method: [
      [groupedBy[grouping.by]],
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
      ...(p === undefined
        ? []
        : [["Deciding p ", { value: p, unit: "p" }, "; settled below ", { value: significance, unit: "p" }, "."]]),
    ],
    caveats: [
      ...caps.flatMap(({ reason }): Sentence[] => (capNotes[reason] === undefined ? [] : [[capNotes[reason]]])),
      ...(holdsForOneReading && p !== undefined
        ? [["This holds for one reading: read again after every cook, a chance finding would come up sooner or later."]]
        : []),
      ...leftOutNotes(of),
    ],
  };
}
