import { fold } from "../../records/words/fold.ts";

/** What a column is called that says how the trays were treated, in the eight languages, from memory. */
const names = new Set(
  "treatment|group|variant|condition|behandlung|gruppe|variante|traitement|groupe|tratamiento|grupo|trattamento|gruppo|behandeling|groep|zabieg|grupa|wariant|tratamento"
    .split("|")
    .map(fold),
);

/** Whether a header says that the column tells what was varied. */
export const isTreatment = (header: string): boolean => names.has(fold(header));
