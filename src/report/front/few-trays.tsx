import type { AnsweredQuestion } from "../../analysis.ts";
import type { VariedLevels } from "../../design/varied-levels.ts";
import type { Book } from "../../records/book.ts";
import { hasEnded, isLost, type Tray } from "../../records/tray.ts";
import { gramsOf, type YieldWeight } from "../../records/yield-weight.ts";
import { lettersClass } from "../charts/chart-place.ts";
import { chartFontSize } from "../charts/chart-theme.ts";
import { letterWidth } from "../charts/letter-width.ts";
import { formatQuantity, formatRange, type NumberSettings } from "../format-quantity.ts";
import { levelName, type ReportFacts } from "../report-facts.ts";
import { shownSentence } from "../shown-sentence.tsx";
import { visibleText } from "../visible-text.ts";
import { DoseShape } from "./dose-shape.tsx";
import { ByLevel, type DoseGroup, mean } from "./few-trays-table.tsx";
import { certaintyOf, VerdictMark } from "./verdict-mark.tsx";

/** The trays of each dose, or of each level of what else varied, with their weights. */
export function groupsOf({ trays, settings }: Book, levels: VariedLevels, weight: YieldWeight): DoseGroup[] {
  return [...levels.values, undefined]
    .map((dose): DoseGroup => {
      const own = trays.filter((tray) => levels.levelOf(tray) === dose);
      return {
        dose,
        name: dose === undefined ? `no ${levels.what}` : levelName(levels, dose, settings),
        trays: own,
        weights: own.flatMap((tray) => {
          const grams = gramsOf(tray, weight);
          return tray.outcome === "good" && grams !== undefined ? [{ tray, grams }] : [];
        }),
      };
    })
    .filter((group) => group.trays.length > 0);
}

/** Days from inoculation to colonised, where both are known. */
function daysOf({ inoculatedOn, colonisedOn, daysToColonise }: Tray): number | undefined {
  if (inoculatedOn === undefined || colonisedOn === undefined) return daysToColonise;
  return Math.round((Date.parse(colonisedOn) - Date.parse(inoculatedOn)) / 86_400_000);
}

/** Four facts at most: how many were good, what they weighed, how long they took. */
function Facts({
  groups,
  weightName,
  settings,
}: {
  groups: ReadonlyArray<DoseGroup>;
  weightName: string;
  settings: NumberSettings;
}) {
  const all = groups.flatMap(({ trays }) => trays);
  const ended = all.filter(hasEnded);
  const weights = groups.flatMap((group) => group.weights.map(({ grams }) => grams));
  const every = all.map(daysOf).filter((value) => value !== undefined);
  const days = (groups.length > 2 ? [] : groups).flatMap(({ name, trays }) => {
    const known = trays.map(daysOf).filter((value) => value !== undefined);
    return known.length === 0 || known.length > 6
      ? []
      : [{ large: known.join(", "), small: `days to colonise at ${name}` }];
  });
  const facts = [
    {
      large: `${ended.filter(({ outcome }) => outcome === "good").length} of ${ended.length}`,
      small: `finished trays good${all.length === ended.length ? "" : `; ${all.length - ended.length} not finished`}`,
    },
    ...(weights.length === 0
      ? []
      : [
          {
            large: formatQuantity({ value: mean(weights), unit: "g", digits: 3 }, settings),
            small: `${weightName}, mean of a good tray${weights.length < 2 ? "" : `; the trays ${formatRange({ from: Math.min(...weights), to: Math.max(...weights), unit: "g", digits: 3 }, settings)}`}`,
          },
        ]),
    ...(groups.length > 2 && every.length > 0
      ? [
          {
            large: formatQuantity({ value: mean(every), unit: "days", digits: 3 }, settings),
            small: "to colonise, mean",
          },
        ]
      : days),
  ];
  return (
    <ul class="plain-facts">
      {facts.map(({ large, small }) => (
        <li key={small}>
          <span class="big">{large}</span>
          <span>{small}</span>
        </li>
      ))}
    </ul>
  );
}

const lane = 44;

interface MarksProps {
  groups: ReadonlyArray<DoseGroup>;
  facts: ReportFacts;
  /** "dry" or "fresh" */
  weightName: string;
  /** pixels */
  width: number;
}

/** Every tray as a labelled mark on one scale of weight, a line for each dose, lost trays in a lane of their own. */
function Marks({ groups, facts, weightName, width }: MarksProps) {
  const every = groups.flatMap(({ weights }) => weights.map(({ grams }) => grams));
  if (every.length === 0) return null;
  const { settings } = facts;
  const [least, most] = [Math.min(...every), Math.max(...every)];
  // never so narrow that a gram looks like a gulf
  const half = Math.max(0.25 * Math.abs(mean(every)), ((most - least) / 2) * 1.15) || 1;
  const middle = (least + most) / 2;
  const lost = groups.some(({ trays }) => trays.some(isLost));
  const from = 64 + (lost ? 44 : 0);
  const x = (grams: number) =>
    Math.round((from + ((grams - middle + half) / (2 * half)) * (width - from - 22)) * 10) / 10;
  const height = groups.length * lane + 38;
  const raw = (half * 2) / 4;
  const step = [1, 2, 5, 10]
    .map((part) => part * Number(`1e${Math.floor(Math.log10(raw))}`))
    .find((part) => part >= raw)!;
  const first = Math.ceil((middle - half) / step) * step;
  const ticks = Array.from(
    { length: Math.floor((middle + half - first) / step) + 1 },
    (_, index) => first + index * step,
  );
  const said = groups.map(
    ({ name, weights, trays }) =>
      `${name}: ${[...weights.map(({ grams }) => formatQuantity({ value: grams, unit: "g" }, settings)), ...trays.filter(isLost).map(() => "lost")].join(", ")}`,
  );
  return (
    <svg
      class="chart"
      width={width}
      height={height}
      viewBox={`0 0 ${width} ${height}`}
      role="img"
      aria-label={`Every tray. ${said.join("; ")}.`}
    >
      {ticks.map((tick) => (
        <g key={tick}>
          <line class="grid" x1={x(tick)} x2={x(tick)} y1="0" y2={height - 38} />
          <text class="quiet" x={x(tick)} y={height - 22} text-anchor="middle">
            {formatQuantity({ value: Number(tick.toPrecision(6)), unit: "factor" }, settings)}
          </text>
        </g>
      ))}
      <text class="quiet" x={(from + width) / 2} y={height - 4} text-anchor="middle">
        {weightName}, g
      </text>
      {lost ? (
        <text class="quiet" x="72" y={height - 22} text-anchor="middle">
          lost
        </text>
      ) : null}
      {groups.map((group, index) => (
        <DoseLine key={group.name} group={group} y={index * lane + 24} x={x} facts={facts} />
      ))}
    </svg>
  );
}

/** One dose's trays, each labelled where labels do not touch: above, or below where the one before is near. */
function DoseLine({
  group,
  y,
  x,
  facts,
}: {
  group: DoseGroup;
  y: number;
  x(grams: number): number;
  facts: ReportFacts;
}) {
  const { dose, name, weights, trays } = group;
  const { levels, settings } = facts;
  const doses = levels.values;
  const ends = { above: Number.NEGATIVE_INFINITY, below: Number.NEGATIVE_INFINITY };
  const letters = dose === undefined ? "" : lettersClass(dose, doses);
  const labelled = weights
    .toSorted((a, b) => a.grams - b.grams)
    .map(({ tray, grams }) => {
      const text = formatQuantity({ value: grams, unit: "factor", digits: 3 }, settings);
      const wide = letterWidth(text, chartFontSize);
      const side = (["above", "below"] as const).find((place) => x(grams) - wide / 2 > ends[place] + 4);
      if (side !== undefined) ends[side] = x(grams) + wide / 2;
      return { tray, grams, text, side };
    });
  return (
    <g>
      <text x="0" y={y + 4} class={`tick ${letters}`}>
        {name}
      </text>
      {trays.filter(isLost).map((tray, index) => (
        <path key={tray.trayId} class="cross" d={`M${66 + index * 12},${y - 5}l10,10m0,-10l-10,10`} />
      ))}
      {labelled.map(({ tray, grams, text, side }) => (
        <g key={tray.trayId}>
          <DoseShape dose={dose} doses={doses} x={x(grams)} y={y} size={5.5} />
          {side === undefined ? null : (
            <text x={x(grams)} y={side === "above" ? y - 9 : y + 19} text-anchor="middle" class={`tick ${letters}`}>
              {text}
            </text>
          )}
        </g>
      ))}
    </g>
  );
}

/** What a few trays gave: facts, every tray as a mark, and the answer about yield as far as it goes. */
export function FewTrays({
  book,
  answers,
  facts,
}: {
  book: Book;
  answers: ReadonlyArray<AnsweredQuestion>;
  facts: ReportFacts;
}) {
  const { weight: weightName } = facts;
  const groups = groupsOf(book, facts.levels, weightName);
  const { what } = facts.levels;
  const yieldAnswer = answers.find(({ id, outcome }) => id === "what-changed-the-yield" && outcome.kind === "answer");
  return (
    <>
      {yieldAnswer === undefined ? null : (
        <div class="top">
          <VerdictMark certainty={certaintyOf(yieldAnswer.outcome)} />
          <span class="name">{visibleText(yieldAnswer.question)}</span>
        </div>
      )}
      <p class="verdict-line">
        {yieldAnswer?.outcome.kind === "answer"
          ? shownSentence(yieldAnswer.outcome.sentence, facts.settings, 600)
          : groups.length === 1
            ? "All trays were treated alike, so there is nothing to compare yet. This is what they gave."
            : `Too few trays to judge ${what === "dose" ? "a dose" : `the ${what}`} yet. This is what they gave.`}
      </p>
      <Facts groups={groups} weightName={weightName} settings={facts.settings} />
      <div class="pair">
        <div class="figure">
          <div class="wide">
            <Marks groups={groups} {...{ facts, weightName }} width={560} />
          </div>
          <div class="narrow">
            <Marks groups={groups} {...{ facts, weightName }} width={358} />
          </div>
        </div>
        <div class="beside">
          <ByLevel groups={groups} what={what} settings={facts.settings} />
        </div>
      </div>
    </>
  );
}
