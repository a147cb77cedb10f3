import type { VariedLevels } from "../../design/varied-levels.ts";
import { counted } from "../../records/counted.ts";
import { grouped } from "../../records/grouped.ts";
import { hasEnded, isLost, type Tray } from "../../records/tray.ts";
import { gramsOf } from "../../records/yield-weight.ts";
import { doseIndex, pickNames } from "../charts/chart-place.ts";
import { formatQuantity } from "../format-quantity.ts";
import { DoseShape } from "../front/dose-shape.tsx";
import { PickName } from "../questions/pick-name.tsx";
import { levelName, type ReportFacts } from "../report-facts.ts";
import { labelText } from "../visible-text.ts";

/** trays shown with their weight; up to `mostMarks` one mark each; beyond, counts by cook and dose */
const mostNumbers = 300;
const mostMarks = 2000;
/** rows of counts beyond which the sheet itself is the better place */
const mostCountRows = 60;

const noCook = "no cook";

/** Trays by cook, in the order met; inside a cook by dose, or by the level of what else varied. */
function rowsOf(trays: ReadonlyArray<Tray>, { levelOf }: VariedLevels): [cook: string, trays: Tray[]][] {
  const rows = grouped(trays, ({ batch }) => batch ?? noCook);
  for (const row of rows.values()) row.sort((a, b) => (levelOf(a) ?? 0) - (levelOf(b) ?? 0));
  return [...rows];
}

/** A tray's mark with its middle at a place of a picture. */
function TrayMark({ tray, facts, x, y }: { tray: Tray; facts: ReportFacts; x: number; y: number }) {
  const { values: doses, levelOf } = facts.levels;
  const { batch } = tray;
  const dose = levelOf(tray);
  return isLost(tray) ? (
    <path class={`cross pick ${pickNames(dose, batch, doses)}`.trim()} d={`M${x - 4.5},${y - 4.5}l9,9m0,-9l-9,9`} />
  ) : (
    <DoseShape {...{ dose, doses, x, y }} growing={!hasEnded(tray)} {...(batch === undefined ? {} : { cook: batch })} />
  );
}

function Mark({ tray, facts }: { tray: Tray; facts: ReportFacts }) {
  return (
    <svg class="tiny" width="15" height="15" viewBox="0 0 15 15" aria-hidden="true">
      <TrayMark tray={tray} facts={facts} x={7.5} y={7.5} />
    </svg>
  );
}

const bareStep = 20;

/** A cook's trays as one picture of marks, where there are too many for a number each. */
function BareRow({ cook, trays, facts }: { cook: string; trays: ReadonlyArray<Tray>; facts: ReportFacts }) {
  const lines = chunks(trays, 24);
  const lost = trays.filter(isLost).length;
  const growing = trays.filter((tray) => !hasEnded(tray)).length;
  const name = [
    `${labelText(cook, 24)}: ${counted(trays.length, "tray")}`,
    lost > 0 ? `${lost} lost` : "",
    growing > 0 ? `${growing} growing` : "",
  ];
  const [width, height] = [Math.min(trays.length, 24) * bareStep, lines.length * bareStep];
  return (
    <svg
      width={width}
      height={height}
      viewBox={`0 0 ${width} ${height}`}
      role="img"
      aria-label={name.filter((part) => part !== "").join(", ")}
    >
      {lines.flatMap((line, row) =>
        line.map((tray, index) => (
          <TrayMark key={`${row}/${index}`} {...{ tray, facts }} x={10 + index * bareStep} y={10 + row * bareStep} />
        )),
      )}
    </svg>
  );
}

const chunks = <Item,>(items: ReadonlyArray<Item>, size: number): Item[][] =>
  Array.from({ length: Math.ceil(items.length / size) }, (_, index) => items.slice(index * size, (index + 1) * size));

/** A tray in words, for who cannot see its mark. */
function inWords(tray: Tray, weight: number | undefined, { settings }: ReportFacts): string {
  const said = isLost(tray)
    ? "lost"
    : tray.outcome === "good" && weight !== undefined
      ? formatQuantity({ value: weight, unit: "g" }, settings)
      : tray.outcome;
  return `${labelText(tray.trayId, 40)}: ${said}`;
}

/** Counts of trays by cook and level, where one mark a tray would be too many. */
function Counts({ trays, facts }: { trays: ReadonlyArray<Tray>; facts: ReportFacts }) {
  const { settings, levels } = facts;
  const doses = levels.values.slice(0, 8);
  const rows = rowsOf(trays, levels);
  const of = (cookTrays: ReadonlyArray<Tray>, dose: number) => {
    const own = cookTrays.filter((tray) => levels.levelOf(tray) === dose);
    const lost = own.filter(isLost).length;
    return own.length === 0 ? "" : lost === 0 ? String(own.length) : `${own.length}, ${lost} lost`;
  };
  return (
    <table class="compact">
      <caption>Trays by cook and {levels.what}</caption>
      <thead>
        <tr>
          <th scope="col">Cook</th>
          {doses.map((dose) => (
            <th scope="col" class="n" key={dose}>
              {levelName(levels, dose, settings)}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.slice(0, mostCountRows).map(([cook, cookTrays]) => (
          <tr key={cook}>
            <th scope="row">{labelText(cook, 24)}</th>
            {doses.map((dose) => (
              <td class="n" key={dose}>
                {of(cookTrays, dose)}
              </td>
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** The wall: a row a cook, a mark a tray, its weight beside it; a cross was lost, a dashed outline still grows. */
export function TrayWall({ trays, facts }: { trays: ReadonlyArray<Tray>; facts: ReportFacts }) {
  if (trays.length > mostMarks) return <Counts trays={trays} facts={facts} />;
  const hasNumbers = trays.length <= mostNumbers;
  return (
    <>
      <p class="note">
        Every tray: a row is a cook{hasNumbers ? `, the number its ${facts.weight} weight in g` : ""}; a cross was lost,
        a dashed outline is still growing.
      </p>
      <div class={hasNumbers ? "wall" : "wall bare"}>
        {rowsOf(trays, facts.levels).map(([cook, cookTrays]) => (
          <div class="wall-row" key={cook}>
            <span class="cook">
              <PickName name={cook} facts={facts} />
            </span>
            {hasNumbers ? (
              <ul>
                {cookTrays.map((tray, index) => (
                  <TrayItem key={index} tray={tray} grams={gramsOf(tray, facts.weight)} facts={facts} />
                ))}
              </ul>
            ) : (
              <BareRow cook={cook} trays={cookTrays} facts={facts} />
            )}
          </div>
        ))}
      </div>
      <DosePicks facts={facts} />
    </>
  );
}

/** A tray of the wall: its mark, its weight, and the same in words. */
function TrayItem({ tray, grams, facts }: { tray: Tray; grams: number | undefined; facts: ReportFacts }) {
  const isDoubtful = tray.flags.length > 0;
  const weighed = tray.outcome === "good" && grams !== undefined;
  return (
    <li
      class={`pick ${pickNames(facts.levels.levelOf(tray), tray.batch, facts.levels.values)}${isDoubtful ? " doubtful" : ""}`}
      data-tray={facts.isLive ? tray.trayId : undefined}
    >
      <Mark tray={tray} facts={facts} />
      <span class="grams" aria-hidden="true">
        {weighed ? formatQuantity({ value: Math.round(grams), unit: "factor" }, facts.settings) : ""}
        {isDoubtful ? "?" : ""}
      </span>
      <span class="unseen">{inWords(tray, grams, facts)}</span>
    </li>
  );
}

/** Buttons that pick a dose, or a level of what else varied, out of every chart, table and the wall. */
function DosePicks({ facts }: { facts: ReportFacts }) {
  const { levels, settings, isLive } = facts;
  const doses = levels.values;
  if (doses.length < 2 || doses.length > 8) return null;
  return (
    <p class="dose-picks">
      {isLive ? "Pick out: " : ""}
      {doses.map((dose) => {
        const content = [
          <svg key="mark" class="tiny" width="14" height="14" viewBox="0 0 14 14" aria-hidden="true">
            <DoseShape dose={dose} doses={doses} x={7} y={7} size={4.4} />
          </svg>,
          levelName(levels, dose, settings),
        ];
        return isLive ? (
          <button
            type="button"
            class="dose"
            key={dose}
            aria-pressed="false"
            data-pick={`dose-${doseIndex(dose, doses) + 1}`}
          >
            {content}
          </button>
        ) : (
          <span class="dose" key={dose}>
            {content}
          </span>
        );
      })}
    </p>
  );
}
