import { markOfDose, pickNames } from "../charts/chart-place.ts";

interface DoseShapeProps {
  dose: number | undefined;
  doses: ReadonlyArray<number>;
  x: number;
  y: number;
  size?: number;
  /** drawn as an outline, one ring a tray */
  open?: boolean;
  /** a dashed outline: a tray that is still growing */
  growing?: boolean;
  cook?: string;
}

const tenth = (value: number): number => Math.round(value * 10) / 10;

/** A path of tenths of a pixel, no finer. */
const path = (parts: TemplateStringsArray, ...values: number[]): string =>
  parts.reduce((text, part, index) => `${text}${tenth(values[index - 1]!)}${part}`);

const paths = {
  circle: (x: number, y: number, r: number) =>
    path`M${x - r},${y}a${r},${r} 0 1,0 ${2 * r},0a${r},${r} 0 1,0 ${-2 * r},0`,
  square: (x: number, y: number, r: number) => path`M${x - r},${y - r}h${2 * r}v${2 * r}h${-2 * r}z`,
  "triangle-up": (x: number, y: number, r: number) => path`M${x},${y - 1.25 * r}l${1.2 * r},${2.1 * r}h${-2.4 * r}z`,
  diamond: (x: number, y: number, r: number) =>
    path`M${x},${y - 1.3 * r}l${1.3 * r},${1.3 * r}l${-1.3 * r},${1.3 * r}l${-1.3 * r},${-1.3 * r}z`,
} as const;

/** A dose's own mark at a place of a picture; ink where it is no dose tried. */
export function DoseShape({ dose, doses, x, y, size = 4, open = false, growing = false, cook }: DoseShapeProps) {
  const { colour, shape, hollow } = markOfDose(dose, doses);
  const isOpen = hollow || open || growing;
  return (
    <path
      class={`pick ${pickNames(dose, cook, doses)}`.trim()}
      d={paths[shape](x, y, shape === "square" ? size * 0.88 : size)}
      fill={isOpen ? "none" : colour}
      stroke={isOpen ? colour : undefined}
      stroke-width={isOpen ? 1.4 : undefined}
      stroke-dasharray={growing ? "1.8 1.6" : undefined}
    />
  );
}
