import { randomBytes } from "node:crypto";

/** A name for a file on its way that nobody has and nobody can guess. */
export const freshName = (): string => `.gramwright-${randomBytes(12).toString("hex")}.tmp`;

/** Whether a name was made by `freshName`. */
export const isFreshName = (name: string): boolean => /^\.gramwright-[0-9a-f]{24}\.tmp$/.test(name);
