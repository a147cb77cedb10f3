import { lettersClass } from "../charts/chart-place.ts";
import { labelText } from "../visible-text.ts";
import { DoseShape } from "./dose-shape.tsx";
import { labelsThatFit } from "./strip-labels.ts";

interface LossGroup {
  name: string;
  dose?: number;
  trays: number;
  lost: number;
}

/** most groups and rings drawn; beyond, a bar says the share */
const mostGroups = 6;

/** One ring a tray, lost ones first as crosses; where there is no room for rings, a bar filled by the share lost. */
export function LossRings({
  groups,
  doses,
  width,
}: {
  groups: ReadonlyArray<LossGroup>;
  doses: ReadonlyArray<number>;
  width: number;
}) {
  const shown = groups.slice(0, mostGroups);
  const each = (width + 10) / shown.length;
  const perRow = (trays: number) => Math.ceil(trays / 2);
  const step = Math.min(8, ...shown.map(({ trays }) => (each - 12) / Math.max(1, perRow(trays))));
  const labels = shown.map(({ name, dose, lost }, index) => ({
    x: index * each + (each - 10) / 2,
    text: `${labelText(name, 12)}: ${lost}`,
    look: dose === undefined ? "tick" : `tick ${lettersClass(dose, doses)}`,
    weight: lost,
  }));
  return (
    <>
      {shown.map(({ name, dose, trays, lost }, index) =>
        step < 4 ? (
          <g key={name} transform={`translate(${index * each},0)`}>
            <rect class="frame" x="0.5" y="8" width={each - 12} height="12" />
            <rect class="mark" x="0.5" y="8" width={trays === 0 ? 0 : ((each - 12) * lost) / trays} height="12" />
          </g>
        ) : (
          <g key={name} transform={`translate(${Math.round(index * each)},0)`}>
            {Array.from({ length: trays }, (_, tray) => {
              const x = step / 2 + (tray % perRow(trays)) * step;
              const y = tray < perRow(trays) ? 8 : 8 + step + 1;
              return tray < lost ? (
                <path key={tray} class="cross" d={`M${x - 2.6},${y - 2.6}l5.2,5.2m0,-5.2l-5.2,5.2`} />
              ) : (
                <DoseShape key={tray} dose={dose} doses={doses} x={x} y={y} size={2.4} open />
              );
            })}
          </g>
        ),
      )}
      {labelsThatFit(labels, width).map(({ x, text, look, anchor }) => (
        <text key={text} x={x} y="38" class={look} text-anchor={anchor}>
          {text}
        </text>
      ))}
    </>
  );
}
