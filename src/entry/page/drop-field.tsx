import { useEffect, useRef, useState } from "preact/hooks";
import { chosenSheets, droppedSheets } from "./dropped-sheets.ts";
import { addSheets, openSample } from "./workbench.ts";

/** Drops anywhere on the page count, so that no one has to aim, and none makes the browser leave the page. */
function useDrops(onOver: (isOver: boolean) => void): void {
  useEffect(() => {
    const over = (event: DragEvent) => {
      event.preventDefault();
      onOver(true);
    };
    const out = (event: DragEvent) => {
      if (event.relatedTarget === null) onOver(false);
    };
    const drop = async (event: DragEvent) => {
      event.preventDefault();
      onOver(false);
      if (event.dataTransfer !== null) addSheets(await droppedSheets(event.dataTransfer));
    };
    document.addEventListener("dragover", over);
    document.addEventListener("dragleave", out);
    document.addEventListener("drop", drop);
    return () => {
      document.removeEventListener("dragover", over);
      document.removeEventListener("dragleave", out);
      document.removeEventListener("drop", drop);
    };
  }, [onOver]);
}

/** Where sheets are dropped or chosen; the sample book stands beside it. */
export function DropField({ isEmpty }: { isEmpty: boolean }) {
  const [isOver, setOver] = useState(false);
  const chooser = useRef<HTMLInputElement>(null);
  useDrops(setOver);
  const choose = async ({ currentTarget }: { currentTarget: HTMLInputElement }) => {
    const files = [...(currentTarget.files ?? [])];
    // the same file may be chosen again after it was mended
    currentTarget.value = "";
    if (files.length > 0) addSheets(await chosenSheets(files));
  };
  return (
    <section class={isOver ? "drop-field over" : "drop-field"} aria-labelledby="drop-title">
      <h2 id="drop-title">{isEmpty ? "Drop your sheets here" : "Add or replace sheets"}</h2>
      {isEmpty ? (
        <p>
          Harvest, cost, product, settings and temperature sheets: CSV, .xlsx or .ods, several at once or a whole
          folder. Their names and columns tell which is which. One harvest sheet is enough to begin.
        </p>
      ) : null}
      <p class="drop-buttons">
        <button type="button" class="strong" onClick={() => chooser.current?.click()}>
          Choose sheets
        </button>
        <button type="button" onClick={openSample}>
          Open the sample book
        </button>
      </p>
      <input
        ref={chooser}
        class="chooser"
        type="file"
        multiple
        hidden
        aria-label="Sheets"
        accept=".csv,.tsv,.txt,.tab,.xlsx,.ods,text/csv,text/plain"
        onChange={choose}
      />
    </section>
  );
}
