/** A name as two names of one thing are compared: without regard to case and outer blanks. */
export const nameKey = (name: string | undefined): string => (name ?? "").trim().toLowerCase();
