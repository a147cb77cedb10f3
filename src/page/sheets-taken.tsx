import { visibleText } from "../report/visible-text.ts";
import { pageNumber } from "./page-number.ts";
import { clearBook, removeSheet, sheets, summary } from "./workbench.ts";

const sizes = ["B", "kB", "MB", "GB"];

/** A size in bytes for people. @example shownSize(2048) // "2 kB" */
function shownSize(bytes: number): string {
  const step = bytes < 1024 ? 0 : Math.min(3, Math.floor(Math.log(bytes) / Math.log(1024)));
  const amount = bytes / 1024 ** step;
  const decimals = amount < 10 && step > 0 ? 1 : 0;
  return `${pageNumber(Number(amount.toFixed(decimals)))} ${sizes[step]}`;
}

/** The sheets of the book, what each was taken for, and a way to take one out. */
export function SheetsTaken() {
  if (sheets.value.length === 0) return null;
  const uses = new Map(summary.value?.sheets.map((sheet) => [sheet.path, sheet]));
  return (
    <section aria-labelledby="sheets-title" class="block">
      <div class="block-head">
        <h2 id="sheets-title">Sheets</h2>
        <button type="button" class="small" onClick={clearBook}>
          Take all out
        </button>
      </div>
      <ul class="sheet-list">
        {sheets.value.map(({ path, bytes }) => {
          const use = uses.get(path);
          const name = visibleText(path, 80);
          return (
            <li key={path}>
              <div>
                <span class="sheet-name">{name}</span> <span class="quiet">{shownSize(bytes.size)}</span>
                <p class={use?.isTrouble ? "use trouble" : "use"}>{use?.use ?? "not read yet"}</p>
              </div>
              <button type="button" class="small" aria-label={`Take out ${name}`} onClick={() => removeSheet(path)}>
                Take out
              </button>
            </li>
          );
        })}
      </ul>
    </section>
  );
}
