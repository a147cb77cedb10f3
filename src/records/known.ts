/** Properties that may be undefined, as properties that may be absent. */
export type Known<T> = { [K in keyof T as undefined extends T[K] ? never : K]: T[K] } & {
  [K in keyof T as undefined extends T[K] ? K : never]?: Exclude<T[K], undefined>;
};

/**
 * A copy of an object without the properties that are undefined.
 * @example known({ grams: 0, price: undefined }) // { grams: 0 }
 */
export const known = <T extends object>(parts: T): Known<T> =>
  Object.fromEntries(Object.entries(parts).filter(([, part]) => part !== undefined)) as Known<T>;
