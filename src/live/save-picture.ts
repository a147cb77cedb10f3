import { figureOf, inSight } from "./figure-in-page.ts";
import { said } from "./model/workbook.ts";
import { saveFile } from "./save-file.ts";

const titleOf = (figure: HTMLElement): string => figure.querySelector("figcaption")?.textContent ?? "chart";

const fileName = (title: string): string =>
  title
    .normalize("NFC")
    .replaceAll(/[^\p{L}\p{N}]+/gu, "-")
    .replace(/^-|-$/g, "")
    .slice(0, 60)
    .toLowerCase() || "chart";

/** A figure's drawing by itself: the page's colours and letters put in as they are now. */
function drawingOf(figure: HTMLElement): string {
  const picture = inSight(figure)?.cloneNode(true) as SVGSVGElement;
  const page = getComputedStyle(document.documentElement);
  const [width, height] = [picture.getAttribute("width") ?? "", picture.getAttribute("height") ?? ""];
  const ground = document.createElementNS("http://www.w3.org/2000/svg", "rect");
  for (const [name, value] of Object.entries({ width, height, fill: "var(--ground)" }))
    ground.setAttribute(name, value);
  picture.prepend(ground);
  picture.setAttribute("font-family", "sans-serif");
  picture.setAttribute("font-size", "13");
  return new XMLSerializer()
    .serializeToString(picture)
    .replace(/var\((--[a-z0-9-]+)\)/g, (_, name: string) => page.getPropertyValue(name).trim() || "currentColor");
}

/** A figure as a picture of dots, at three times its size. */
async function asPicture(figure: HTMLElement): Promise<Blob> {
  const picture = inSight(figure);
  if (picture === undefined) throw new Error("asPicture: the chart is not in sight");
  const image = new Image();
  image.src = `data:image/svg+xml;charset=utf-8,${encodeURIComponent(drawingOf(figure))}`;
  await image.decode();
  const canvas = document.createElement("canvas");
  const scale = 3;
  canvas.width = Number(picture.getAttribute("width")) * scale;
  canvas.height = Number(picture.getAttribute("height")) * scale;
  canvas.getContext("2d")!.drawImage(image, 0, 0, canvas.width, canvas.height);
  const blob = await new Promise<Blob | null>((resolve) => canvas.toBlob(resolve, "image/png"));
  if (blob === null) throw new Error("asPicture: this browser made no picture");
  return blob;
}

/** Saves a figure where a button of it asks for that, as a drawing or as a picture of dots. */
export function savePicture({ target }: Event): void {
  const figure = figureOf(target);
  const save = target instanceof Element ? target.closest<HTMLElement>("[data-save]")?.dataset.save : undefined;
  if (figure === undefined || save === undefined) return;
  const name = fileName(titleOf(figure));
  if (save === "svg") saveFile(`${name}.svg`, new Blob([drawingOf(figure)], { type: "image/svg+xml;charset=utf-8" }));
  else if (save === "png") {
    asPicture(figure).then(
      (picture) => saveFile(`${name}.png`, picture),
      (error: unknown) => {
        said.value = `No picture could be made: ${String(error)}`;
      },
    );
  }
}
