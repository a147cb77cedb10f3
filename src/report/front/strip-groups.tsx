import { formatQuantity } from "../format-quantity.ts";
import { labelText } from "../visible-text.ts";
import { DoseShape } from "./dose-shape.tsx";
import { edge, Labels, nameBefore, type Of, RangeBar, ruler, rulerAt, type StripPlace, short } from "./strip-parts.tsx";

/** What was known after each cook. */
export function Cooks({ strip, place }: { strip: Of<"cooks">; place: StripPlace }) {
  const { width } = place;
  const shown = strip.cooks.slice(-24);
  const every = shown.flatMap(({ value, from = value, to = value }) => [value, from, to]);
  const [least, most] = [Math.min(0, ...every), Math.max(0, ...every)];
  const y = (value: number) => Math.round((4 + ((most - value) / (most - least || 1)) * 34) * 10) / 10;
  const x = (index: number) => 18 + (index * (width - 36)) / Math.max(1, shown.length - 1);
  const labels = shown.map(({ name }, index) => ({
    x: x(index),
    text: labelText(name, 14),
    look: "quiet",
    weight: index === 0 || index === shown.length - 1 ? 3 : 0,
  }));
  return (
    <>
      <line class="ref" x1={edge} x2={width - edge} y1={y(0)} y2={y(0)} />
      {shown.map(({ name, value, from, to }, index) =>
        from === undefined || to === undefined ? (
          <circle key={name} class="ring" cx={x(index)} cy={y(value)} r="3.4" />
        ) : (
          <g key={name}>
            <line class="bar" x1={x(index)} x2={x(index)} y1={y(from)} y2={y(to)} />
            <circle class="dot" cx={x(index)} cy={y(value)} r="3.4" />
          </g>
        ),
      )}
      <Labels
        labels={[
          ...labels.filter(({ weight }) => weight > 0),
          { x: width / 2, text: strip.zero, look: "quiet", weight: 2 },
        ]}
        width={width}
        y={54}
      />
    </>
  );
}

/** A mean with its range for each group. */
export function Groups({ strip, place }: { strip: Of<"groups">; place: StripPlace }) {
  const { settings, width, doses } = place;
  const groups = strip.groups.slice(0, 4);
  const every = groups.flatMap(({ value, from = value, to = value }) => [value, from, to]);
  const names = 84;
  const step = groups.length > 3 ? 14 : 17;
  const x = ruler([Math.min(0, ...every), ...every], width - names - 44);
  return (
    <>
      {groups.map(({ name, dose, value, from, to }, index) => (
        <g key={name} transform={`translate(${names},${index * step - 4})`}>
          <text x={-8} y={rulerAt + 4} class={dose === undefined ? "quiet" : "tick"} text-anchor="end">
            {nameBefore(name, names - 8)}
          </text>
          {from === undefined || to === undefined ? null : <RangeBar from={x(from)} to={x(to)} />}
          {dose === undefined ? (
            <circle class="dot" cx={x(value)} cy={rulerAt} r="4" />
          ) : (
            <DoseShape dose={dose} doses={doses} x={x(value)} y={rulerAt} />
          )}
          <text x={width - names} y={rulerAt + 4} text-anchor="end">
            {short(value, strip.unit, settings, strip.digits === undefined ? every : [], strip.digits)}
          </text>
        </g>
      ))}
    </>
  );
}

/** Parts of a whole, longest first. */
export function Shares({ strip, place }: { strip: Of<"shares">; place: StripPlace }) {
  const { settings, width } = place;
  const parts = strip.parts.slice(0, 3);
  const most = Math.max(...parts.map(({ value }) => value)) || 1;
  const names = 104;
  return (
    <>
      {parts.map(({ name, value, count }, index) => (
        <g key={name} transform={`translate(0,${index * 17})`}>
          <text x={names - 8} y="14" class="quiet" text-anchor="end">
            {nameBefore(name, names - 8)}
          </text>
          <rect class="range" x={names} y="5" width={Math.max(1, (value / most) * (width - names - 40))} height="9" />
          <text x={names + (value / most) * (width - names - 40) + 5} y="14">
            {count ?? formatQuantity({ value, unit: "share", digits: 2 }, settings)}
          </text>
        </g>
      ))}
    </>
  );
}

/** One mark for each measure watched. */
export function Measures({ strip, place }: { strip: Of<"measures">; place: StripPlace }) {
  const step = (place.width - 16) / Math.max(1, strip.measures.length);
  const moved = strip.measures.filter((measure) => measure.moved);
  return (
    <>
      {strip.measures.map(({ name, moved: has }, index) => (
        <circle key={name} class={has ? "mark warm" : "ring"} cx={8 + step * (index + 0.5)} cy={rulerAt} r="5" />
      ))}
      <Labels
        labels={[
          {
            x: place.width / 2,
            text:
              moved.length === 0
                ? strip.measures
                    .map(({ name }) => labelText(name, 14))
                    .slice(0, 3)
                    .join(", ")
                : `moved: ${labelText(moved[0]!.name, 20)}`,
            look: moved.length === 0 ? "quiet" : "tick warm",
          },
        ]}
        width={place.width}
        y={40}
      />
    </>
  );
}
