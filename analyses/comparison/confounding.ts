import type { Sentence, Table } from "../../src/analysis.ts";
import { startedCount } from "../../src/design/arm.ts";
import type { Factor } from "../../src/design/factor.ts";
import type { Layout } from "../../src/design/layout.ts";
import { timeConfounding } from "./time-confounding.ts";

/** Whether the layout lets a treatment's effect be told from everything else that changed. */
export type Confounding =
  | { kind: "separable"; caveats: Sentence[] }
  | { kind: "not-separable"; reason: Sentence; wouldSettle: Sentence };

const lower = (text: string): string => text.charAt(0).toLowerCase() + text.slice(1);

/** Factors whose levels are amounts or labels of the tray itself; one level for each arm is then a second treatment, not a group. */
const unitsOf = (layout: Layout, factor: Factor): number[] =>
  layout.arms.map(({ trays }) => new Set(trays.flatMap((tray) => factor.level(tray) ?? [])).size);

/**
 * Decides from the layout whether a treatment can be judged, and what the cheapest trial that could would look like.
 * A treatment is beyond judging when something else has one level of its own for an arm: one jar per dose, one cook per
 * supplement, one chamber per temperature, one culture age per dose.
 */
export function confounding(layout: Layout): Confounding {
  const what = lower(layout.treatment.label);
  const { arms, unit, unitsPerArm, ties } = layout;
  if (arms.length < 2) {
    const only = arms[0];
    return {
      kind: "not-separable",
      reason: [
        only === undefined
          ? `Cannot tell what ${what} does: no tray has it recorded.`
          : `Cannot tell what ${what} does: every tray had the same (${only.level}${layout.treatment.unit ? ` ${layout.treatment.unit}` : ""}).`,
      ],
      wouldSettle: [
        `Give at least two levels of ${what} in each of the next three cooks, drawn at random tray by tray.`,
      ],
    };
  }
  const settle: Sentence = [
    `Put every level of ${what} into each of at least three cooks, from the same jars, drawn at random tray by tray: four trays a level and cook are a start.`,
  ];
  if (unit !== "tray" && Math.min(...unitsPerArm) < 2) {
    const thin = arms.filter((_, index) => unitsPerArm[index]! < 2).map(({ level }) => level);
    const all = thin.length === arms.length;
    return {
      kind: "not-separable",
      reason: [
        `Cannot tell what ${what} does: ${all ? "each level" : `the level ${thin.join(", ")}`} came from one ${lower(unit.label)} alone, so the ${lower(unit.label)} and the ${what} cannot be told apart, however many trays there are.`,
      ],
      wouldSettle:
        unit.key === "chamber"
          ? [
              `Swap the settings between the chambers from run to run, for at least three runs: a chamber run is one trial, however many trays it holds.`,
            ]
          : settle,
    };
  }
  const stuck = ties.find((tie) => tie.extent === "fully" && Math.min(...unitsOf(layout, tie.factor)) < 2);
  if (stuck !== undefined) {
    return {
      kind: "not-separable",
      reason: [
        `Cannot tell what ${what} does: it always changed together with ${lower(stuck.factor.label)}, so the two cannot be told apart.`,
      ],
      wouldSettle: [
        `Keep ${lower(stuck.factor.label)} the same for every level of ${what}, or put every level of one with every level of the other.`,
      ],
    };
  }
  const calendar = timeConfounding(layout);
  if (calendar === "apart") {
    return {
      kind: "not-separable",
      reason: [
        `Cannot tell what ${what} does: each level had a stretch of the calendar to itself, so it cannot be told from the season, from practice or from whatever else changed with time.`,
      ],
      wouldSettle: settle,
    };
  }
  const caveats: Sentence[] = ties.map(
    ({ factor, extent }): Sentence => [
      extent === "fully"
        ? `No level of ${what} shares a ${lower(factor.label)} with another, so levels are compared between ${lower(factor.label)} groups, which is less sure than within them.`
        : `Not every level of ${what} shares a ${lower(factor.label)} with the others, so part of the comparison is between different levels of ${lower(factor.label)}.`,
    ],
  );
  if (calendar === "leaning") {
    caveats.push([
      `Some levels of ${what} came later than a draw by lot would put them, so part of the difference may be the season: put every level into each cook.`,
    ]);
  }
  return { kind: "separable", caveats };
}

/** What the layout is, in one sentence. */
export function layoutSentence(layout: Layout): Sentence {
  const { treatment, arms, unit, unitsPerArm, block, blockLevels } = layout;
  const what = lower(treatment.label);
  if (arms.length === 0) return [`No tray has its ${what} recorded.`];
  const sizes = arms.map(({ trays }) => startedCount(trays));
  const [least, most] = [Math.min(...sizes), Math.max(...sizes)];
  const perArm = least === most ? `${least}` : `${least} to ${most}`;
  const unitText =
    unit === "tray"
      ? "given tray by tray"
      : `given to whole ${lower(unit.label)} groups (${unitsPerArm.join(", ")} of them per level), so a ${lower(unit.label)} counts as one, not each of its trays`;
  const blockText =
    block === undefined
      ? "no cook, load or jar holds several levels side by side"
      : `compared inside ${blockLevels.length} ${lower(block.label)} groups that hold several levels`;
  return [`${arms.length} levels of ${what}, ${perArm} trays each, ${unitText}; ${blockText}.`];
}

/** Trays by level and cook (or other group), as a table; undefined when no group is recorded. */
export function layoutGrid(layout: Layout): Table | undefined {
  const { grid, arms, treatment } = layout;
  if (grid === undefined) return undefined;
  return {
    caption: `Trays by ${lower(treatment.label)} and ${lower(grid.label)}`,
    columns: [
      { label: grid.label },
      ...arms.map(({ level }) => ({ label: treatment.unit ? `${level} ${treatment.unit}` : level, unit: "trays" })),
    ],
    rows: grid.rows.map(({ level, counts }) => [level, ...counts]),
  };
}
