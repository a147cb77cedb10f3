import { useEffect, useRef, useState } from "preact/hooks";
import { chosenFolder, chosenSheets, type DroppedSheets, droppedSheets } from "./dropped-sheets.ts";
import { addSheets, dropNotes, openSample } from "./workbench.ts";

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

/** Not every browser, on phones above all, lets a whole folder be chosen. */
const canChooseFolder = "webkitdirectory" in HTMLInputElement.prototype;

/** Buttons that open the browser's own choosers of files and folders. */
function SheetChoosers() {
  const chooser = useRef<HTMLInputElement>(null);
  const folderChooser = useRef<HTMLInputElement>(null);
  useEffect(() => {
    if (folderChooser.current !== null) folderChooser.current.webkitdirectory = true;
  }, []);
  const chosen = async (field: HTMLInputElement, take: (files: File[]) => Promise<DroppedSheets>) => {
    const files = [...(field.files ?? [])];
    // the same file may be chosen again after it was corrected
    field.value = "";
    if (files.length > 0) addSheets(await take(files));
  };
  return (
    <>
      <p class="drop-buttons">
        <button type="button" class="strong" onClick={() => chooser.current?.click()}>
          Choose sheets
        </button>
        {canChooseFolder ? (
          <button type="button" onClick={() => folderChooser.current?.click()}>
            Choose a folder
          </button>
        ) : null}
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
        onChange={({ currentTarget }) => chosen(currentTarget, chosenSheets)}
      />
      <input
        ref={folderChooser}
        class="folder-chooser"
        type="file"
        hidden
        aria-label="Folder of sheets"
        onChange={({ currentTarget }) => chosen(currentTarget, chosenFolder)}
      />
    </>
  );
}

/** Where sheets are dropped or chosen, or the sample book opened. */
export function DropField({ isEmpty }: { isEmpty: boolean }) {
  const [isOver, setOver] = useState(false);
  useDrops(setOver);
  return (
    <section class={isOver ? "drop-field over" : "drop-field"} aria-labelledby="drop-title">
      <h2 id="drop-title">{isEmpty ? "Drop your sheets here" : "Add or replace sheets"}</h2>
      {isEmpty ? (
        <p>
          Harvest, cost, product, settings and temperature sheets: CSV, .xlsx or .ods, several at once or a whole
          folder. Their names and columns tell which is which. One harvest sheet is enough to begin.
        </p>
      ) : null}
      <SheetChoosers />
      {dropNotes.value.length === 0 ? null : (
        <ul class="drop-notes">
          {dropNotes.value.map((note) => (
            <li key={note}>{note}</li>
          ))}
        </ul>
      )}
    </section>
  );
}
