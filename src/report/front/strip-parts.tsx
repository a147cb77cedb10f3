import type { Strip } from "../../analysis.ts";
import { cutToWidth } from "../charts/letter-width.ts";
import { formatQuantity, type NumberSettings } from "../format-quantity.ts";
import type { ReportFacts } from "../report-facts.ts";
import { visibleText } from "../visible-text.ts";
import { labelsThatFit, type StripLabel, stripLetters } from "./strip-labels.ts";

/** What a strip needs to be drawn. */
export interface StripPlace {
  settings: NumberSettings;
  doses: ReadonlyArray<number>;
  /** pixels */
  width: number;
  pickOf: ReportFacts["pickOf"];
}

/** free at both ends of a ruler */
export const edge = 8;
/** height of the ruler */
export const rulerAt = 18;

/** Places on a ruler from one value to another. */
export function ruler(values: ReadonlyArray<number>, width: number): (value: number) => number {
  const [least, most] = [Math.min(...values), Math.max(...values)];
  const span = most - least || Math.abs(most) || 1;
  return (value) => Math.round((edge + ((value - least) / span) * (width - 2 * edge)) * 10) / 10;
}

/** Labels of one line, those that fit. */
export function Labels({ labels, width, y }: { labels: ReadonlyArray<StripLabel>; width: number; y: number }) {
  return (
    <>
      {labelsThatFit(labels, width).map(({ x, text, look, anchor }, index) => (
        <text key={index} x={x} y={y} class={look} text-anchor={anchor}>
          {text}
        </text>
      ))}
    </>
  );
}

/** A range on the ruler. */
export const RangeBar = ({ from, to }: { from: number; to: number }) => (
  <rect class="range" x={from} y={rulerAt - 3.5} width={Math.max(1, to - from)} height="7" />
);

/** The ruler itself. */
export const Ruler = ({ width }: { width: number }) => (
  <line class="ruler" x1={edge} x2={width - edge} y1={rulerAt} y2={rulerAt} />
);

/** The value on the ruler. */
export const Point = ({ x }: { x: number }) => <circle class="point" cx={x} cy={rulerAt} r="5.5" />;

/** An upright line: no effect, break-even, what is wanted. */
export const Line = ({ x }: { x: number }) => <line class="ref" x1={x} x2={x} y1="5" y2="31" />;

/** One kind of strip. */
export type Of<Kind extends Strip["kind"]> = Extract<Strip, { kind: Kind }>;

/** A number as a strip writes it: no sign, no "per". */
export const short = (
  value: number,
  unit: string,
  settings: NumberSettings,
  others: ReadonlyArray<number> = [],
  digits?: number,
): string => {
  const spread = others.length > 1 ? { from: Math.min(...others), to: Math.max(...others), unit } : undefined;
  const quantity = { value: Math.abs(value), unit, ...(digits === undefined ? {} : { digits }) };
  return formatQuantity(quantity, settings, undefined, spread).replace(/ per .*$/, "");
};

/** A name before its bar, cut to the room there is; a little wider faces than the everyday one fit, too. */
export const nameBefore = (name: string, pixels: number): string =>
  cutToWidth(visibleText(name), pixels / 1.12, stripLetters);

/** A written number without its unit. */
export const bare = (text: string): string => text.replace(/\u00a0.*$/, "");
