/** When a file of the project was last changed, in milliseconds; 0 where there is none. */
export function changedAt(path: string): number;
/** Whether there is no build, or a source changed after it. */
export function isBuildStale(): boolean;
