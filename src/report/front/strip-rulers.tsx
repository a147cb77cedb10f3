import { lettersClass } from "../charts/chart-place.ts";
import { formatQuantity } from "../format-quantity.ts";
import { labelText } from "../visible-text.ts";
import { DoseShape } from "./dose-shape.tsx";
import { rangeEnds } from "./figure-text.ts";
import type { StripLabel } from "./strip-labels.ts";
import {
  bare,
  edge,
  Labels,
  Line,
  type Of,
  Point,
  RangeBar,
  Ruler,
  ruler,
  rulerAt,
  type StripPlace,
  short,
} from "./strip-parts.tsx";

/** A difference with its range against the line of no effect. */
export function Difference({ strip, place }: { strip: Of<"difference">; place: StripPlace }) {
  const { unit, value, from = value, to = value, zero } = strip;
  const { settings, width } = place;
  const far = Math.max(0, value, to) > -Math.min(0, value, from) ? Math.max(value, to) : Math.min(value, from);
  const x = ruler([0, from, to, 1.2 * far, far > 0 ? -0.08 * far : -0.08 * far], width);
  const ends = [from, to].map((end) => short(end, unit, settings, [from, to]));
  if (from >= 0 || to <= 0) {
    // as written beside it: an end clear of 0 is not 0
    const [near, farther] = rangeEnds(
      ...(to <= 0 ? ([-to, -from] as const) : ([from, to] as const)),
      unit,
      undefined,
      settings,
    );
    ends.splice(0, 2, ...(to <= 0 ? [farther, near + farther.slice(bare(farther).length)] : [near, farther]));
  }
  const labels =
    from === to
      ? [{ x: x(value), text: short(value, unit, settings), weight: 2 }]
      : [
          { x: x(from), text: bare(ends[0]!), weight: 2 },
          { x: x(to), text: ends[1]!, weight: 2 },
        ];
  return (
    <>
      <Ruler width={width} />
      <Line x={x(0)} />
      {from === to ? null : <RangeBar from={x(from)} to={x(to)} />}
      <Point x={x(value)} />
      <Labels labels={labels} width={width} y={36} />
      <Labels labels={[{ x: x(0), text: zero, look: "quiet" }]} width={width} y={50} />
    </>
  );
}

/** The dose to use among the doses tried. */
export function BestDose({ strip, place }: { strip: Of<"best-dose">; place: StripPlace }) {
  const { unit, use, from, to, tried } = strip;
  const { settings, width, doses } = place;
  const x = ruler([...tried, from, to, use], width);
  const labels = tried.map((dose, index): StripLabel => {
    const text = formatQuantity({ value: dose, unit }, settings);
    return {
      x: x(dose),
      text: index === tried.length - 1 ? text : bare(text),
      look: `tick ${lettersClass(dose, doses)}`,
      weight: dose === use ? 3 : index === 0 || index === tried.length - 1 ? 2 : 1,
    };
  });
  const isTried = tried.includes(use);
  return (
    <>
      <Ruler width={width} />
      <RangeBar from={x(from)} to={x(to)} />
      {isTried ? <circle class="around" cx={x(use)} cy={rulerAt} r="8" /> : <Point x={x(use)} />}
      {tried.map((dose) => (
        <DoseShape key={dose} dose={dose} doses={doses} x={x(dose)} y={rulerAt} size={4.6} />
      ))}
      <Labels labels={labels} width={width} y={40} />
    </>
  );
}

/** The margin now and the margin wanted of every product, around break-even. */
export function Margins({ strip, place }: { strip: Of<"margins">; place: StripPlace }) {
  const { settings, width } = place;
  const of = (which: "now" | "wanted") =>
    strip.products.flatMap(({ name, [which]: margin }) =>
      margin === undefined ? [] : [{ margin, pick: `pick ${place.pickOf(name) ?? ""}`.trim() }],
    );
  const [nowMarks, wantedMarks] = [of("now"), of("wanted")];
  const [now, wanted] = [nowMarks.map(({ margin }) => margin), wantedMarks.map(({ margin }) => margin)];
  // a margin far below is drawn at the end of the ruler, with its number
  const floor = Math.max(-0.6, Math.min(0, ...now));
  const x = ruler([floor, 0, ...now.map((margin) => Math.max(floor, margin)), ...wanted, 0.1], width);
  const worst = Math.min(...now);
  return (
    <>
      <Ruler width={width} />
      <Line x={x(0)} />
      {wantedMarks.map(({ margin, pick }, index) => (
        <circle key={`w${index}`} class={`ring ${pick}`} cx={x(margin)} cy={rulerAt} r="4.6" />
      ))}
      {nowMarks.map(({ margin, pick }, index) => (
        <path
          key={`n${index}`}
          class={`${margin < 0 ? "mark warm" : "mark"} ${pick}`}
          d={`M${x(Math.max(floor, margin))},${rulerAt - 6}l6,6l-6,6l-6,-6z`}
        />
      ))}
      <Labels
        labels={[
          ...(worst < 0
            ? [
                {
                  x: x(Math.max(floor, worst)),
                  text: formatQuantity({ value: worst, unit: "share" }, settings),
                  look: "tick warm",
                  weight: 3,
                },
              ]
            : []),
          ...(wanted.length > 0 ? [{ x: x(Math.max(...wanted)), text: "wanted", look: "quiet", weight: 2 }] : []),
        ]}
        width={width}
        y={37}
      />
      <Labels labels={[{ x: x(0), text: "break-even", look: "quiet" }]} width={width} y={50} />
    </>
  );
}

/** An amount with its range from 0. */
export function Amount({ strip, place }: { strip: Of<"amount">; place: StripPlace }) {
  const { unit, value, from, to, others = [], digits } = strip;
  const { settings, width } = place;
  const ends = from === undefined || to === undefined ? [] : [from, to];
  const x = ruler([0, value, ...ends, ...others.map((other) => other.value)], width);
  const written = (amount: number) => short(amount, unit, settings, ends, digits);
  return (
    <>
      <Ruler width={width} />
      {ends.length === 2 ? <RangeBar from={x(ends[0]!)} to={x(ends[1]!)} /> : null}
      {others.map((other) => (
        <circle key={other.name} class="ring" cx={x(other.value)} cy={rulerAt} r="5" />
      ))}
      <Point x={x(value)} />
      <Labels
        labels={[
          { x: x(value), text: written(value), weight: 3 },
          ...others.map((other) => ({
            x: x(other.value),
            text: `${labelText(other.name, 22)} ${written(other.value)}`,
            look: "quiet",
            weight: 1,
          })),
          { x: edge, text: "0", look: "quiet" },
        ]}
        width={width}
        y={38}
      />
    </>
  );
}

/** A chance reached against the chance wanted. */
export function Chance({ strip, place }: { strip: Of<"chance">; place: StripPlace }) {
  const { settings, width } = place;
  const x = ruler([0, 1], width);
  const percent = (share: number) => formatQuantity({ value: share, unit: "share", digits: 2 }, settings);
  return (
    <>
      <Ruler width={width} />
      <RangeBar from={x(0)} to={x(strip.value)} />
      <Line x={x(strip.wanted)} />
      <Point x={x(strip.value)} />
      <Labels
        labels={[{ x: x(strip.value), text: `${labelText(strip.name, 24)}: ${percent(strip.value)}` }]}
        width={width}
        y={36}
      />
      <Labels
        labels={[{ x: x(strip.wanted), text: `${percent(strip.wanted)} wanted`, look: "quiet" }]}
        width={width}
        y={50}
      />
    </>
  );
}
