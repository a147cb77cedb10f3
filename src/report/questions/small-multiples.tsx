import type { ControlChart } from "../../analysis.ts";
import { cutToWidth, letterWidth } from "../charts/letter-width.ts";
import { asHead, columnFormat, withUnit } from "../column-format.ts";
import type { NumberSettings } from "../format-quantity.ts";
import { labelText, visibleText } from "../visible-text.ts";

const size = { width: 164, height: 104, left: 4, right: 4, top: 10, bottom: 18 } as const;

/** pixels of letters, and of a cook's name under its end of the axis */
const letters = 12.5;
const nameRoom = 44;

/** A cook's name under the axis; of one too long its last word, which tells cooks apart more often than the first. */
function endName(label: string): string {
  const name = labelText(label, 40);
  if (letterWidth(name, letters) <= nameRoom) return name;
  return cutToWidth(`…${name.split(" ").at(-1)}`, nameRoom, letters);
}

/** One measure over the cooks between its limits, in small. */
function SmallChart({ chart, settings }: { chart: ControlChart; settings: NumberSettings }) {
  const { points, unit } = chart;
  const values = points.flatMap(({ value, lower = value, upper = value }) => [value, lower, upper]);
  const centre = points.at(-1)?.centre ?? 0;
  // scatter of a few percent must not look like a swing
  const half = Math.max(0.05 * Math.abs(centre), ...values.map((value) => Math.abs(value - centre))) || 1;
  const x = (index: number) =>
    Math.round(
      (size.left + 4 + (index * (size.width - size.left - size.right - 8)) / Math.max(1, points.length - 1)) * 10,
    ) / 10;
  const y = (value: number) =>
    Math.round((size.top + ((centre + half - value) / (2 * half)) * (size.height - size.top - size.bottom)) * 10) / 10;
  const format = columnFormat({ label: chart.valueLabel, unit }, values, settings);
  const last = points.at(-1)!;
  const bounds = points
    .map(({ upper, lower }, index) => ({ index, upper, lower }))
    .filter((limits) => limits.upper !== undefined && limits.lower !== undefined);
  const band = [
    ...bounds.map(({ index, upper }) => `${x(index)},${y(upper!)}`),
    ...bounds.toReversed().map(({ index, lower }) => `${x(index)},${y(lower!)}`),
  ];
  return (
    <figure class="small-chart">
      <figcaption>{visibleText(withUnit(asHead(chart.valueLabel), format.unit), 44)}</figcaption>
      <svg
        width={size.width}
        height={size.height}
        viewBox={`0 0 ${size.width} ${size.height}`}
        role="img"
        aria-label={visibleText(`${chart.title}. ${chart.description}`, 600)}
      >
        {band.length > 3 ? <polygon class="limits" points={band.join(" ")} /> : null}
        <line class="ruler" x1={size.left} x2={size.width - size.right} y1={y(centre)} y2={y(centre)} />
        <polyline class="thread" points={points.map(({ value }, index) => `${x(index)},${y(value)}`).join(" ")} />
        {points.map(({ value, signal, label }, index) => (
          <circle
            key={index}
            class={signal === undefined ? "dot" : "mark warm"}
            cx={x(index)}
            cy={y(value)}
            r={signal === undefined ? 2.4 : 4.2}
          >
            <title>{labelText(label, 40)}</title>
          </circle>
        ))}
        <text class="quiet" x={size.left} y={size.height - 3}>
          {endName(points[0]!.label)}
        </text>
        <text class="quiet" x={size.width - size.right} y={size.height - 3} text-anchor="end">
          {`${endName(last.label)}: ${format.write(last.value)}`}
        </text>
      </svg>
    </figure>
  );
}

/** Measures watched over the cooks side by side, on one axis of cooks. */
export const SmallMultiples = ({
  charts,
  settings,
}: {
  charts: ReadonlyArray<ControlChart>;
  settings: NumberSettings;
}) => (
  <>
    <div class="multiples">
      {charts
        .filter(({ points }) => points.length > 0)
        .map((chart, index) => (
          <SmallChart key={index} chart={chart} settings={settings} />
        ))}
    </div>
    <p class="note">Tinted: the limits. A large mark lies beyond chance.</p>
  </>
);
