import { useBlobAddress } from "./blob-address.ts";
import { bookName, cleanedFiles, report, summary } from "./workbench.ts";

/** A name that every file system takes. @example fileName("a/b: c") // "a-b-c" */
const fileName = (name: string): string =>
  name
    .normalize("NFC")
    .replaceAll(/[^\p{L}\p{N}._-]+/gu, "-")
    .replace(/^[-.]+|[-.]+$/g, "")
    .slice(0, 80) || "book";

/** A link that saves a file; a button that does nothing yet where the file is not there. */
export function Save({ what, name, blob }: { what: string; name: string; blob: Blob | undefined }) {
  const address = useBlobAddress(blob);
  if (address === undefined) {
    return (
      <button type="button" class="save" disabled>
        {what}
      </button>
    );
  }
  return (
    <a class="save" href={address} download={name}>
      {what}
    </a>
  );
}

/** What can be saved: each is a new file; the sheets themselves stay as they are. */
export function SaveBar() {
  const name = fileName(bookName.value ?? summary.value?.name ?? "book");
  const files = cleanedFiles.value;
  return (
    <section class="save-bar" aria-label="Save">
      <span class="quiet">Save</span>
      <Save what="Report" name={`${name}-report.html`} blob={report.value} />
      <Save what="Cleaned sheet" name={`${name}-cleaned.csv`} blob={files?.cleaned} />
      <Save what="Log" name={`${name}-log.csv`} blob={files?.log} />
      <Save what="Settings" name="settings.csv" blob={files?.settings} />
      {files?.columns === undefined ? null : <Save what="Columns" name="columns.csv" blob={files.columns} />}
      {files?.cells === undefined ? null : <Save what="Answers" name="cells.csv" blob={files.cells} />}
    </section>
  );
}
