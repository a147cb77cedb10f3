/** Where a tray's mark stands in a drawing, in the drawing's own units. */
export interface TrayMark {
  tray: string;
  x: number;
  y: number;
}

/** One part of the drawing library's scene: a group of marks, or a mark. */
export interface ScenePart {
  marktype?: string;
  x?: number;
  y?: number;
  items?: ScenePart[];
  datum?: { tray?: unknown };
}

const shiftOf = (svg: string): [number, number] => {
  const [, x = "0", y = "0"] = /transform="translate\(([-\d.]+),([-\d.]+)\)"/.exec(svg) ?? [];
  return [Number(x), Number(y)];
};

/**
 * Where trays stand in a drawing.
 * @param root the drawing library's scene; @param svg the same scene drawn
 */
export function trayMarks(root: ScenePart, svg: string): TrayMark[] {
  const marks: TrayMark[] = [];
  const walk = (part: ScenePart, x: number, y: number): void => {
    for (const item of part.items ?? []) {
      const [ownX, ownY] = [x + (item.x ?? 0), y + (item.y ?? 0)];
      if (part.marktype === "symbol" && typeof item.datum?.tray === "string") {
        marks.push({ tray: item.datum.tray, x: ownX, y: ownY });
      } else if (item.items !== undefined)
        walk(item, item.marktype === undefined ? ownX : x, item.marktype === undefined ? ownY : y);
    }
  };
  walk(root, ...shiftOf(svg));
  return marks;
}
