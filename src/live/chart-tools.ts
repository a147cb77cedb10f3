import type { Chart } from "../analysis.ts";
import type { Tray } from "../records/tray.ts";
import { doseIndex, pickNames } from "../report/charts/chart-place.ts";
import type { TrayMark } from "../report/charts/tray-marks.ts";
import { chartOf } from "../report/questions/question-body.tsx";
import { dosesOf } from "../report/report-facts.ts";
import { visibleText } from "../report/visible-text.ts";
import { startChartKeys } from "./chart-keys.ts";
import { current, edits, picked, said, workbook } from "./model/workbook.ts";
import { letGo, pickOut, startPicking } from "./pick-out.ts";
import { saveFile } from "./save-file.ts";
import type { GridModel } from "./sheet/grid-model.ts";
import type { Answering } from "./worker/answering.ts";
import { pointNamed, traysNamed, traysOfGroup } from "./worker/chart-trays.ts";
import type { LiveAnswer } from "./worker/worker-messages.ts";

/** how near a pointer has to come to a mark, in pixels of the screen */
const near = 14;

/** what is told of a tray before the rest of its row */
const first = ["tray_id", "outcome", "inoculum_ml", "fresh_g", "dry_g", "batch", "supplement_g", "fruiting_c"];

const figureOf = (target: EventTarget | null): HTMLElement | undefined =>
  (target instanceof Element ? target.closest<HTMLElement>("figure[data-chart]") : null) ?? undefined;

const titleOf = (figure: HTMLElement): string => figure.querySelector("figcaption")?.textContent ?? "chart";

/** The drawing of a figure that is in sight: it has one for each width. */
const inSight = (figure: HTMLElement): SVGSVGElement | undefined =>
  [...figure.querySelectorAll<SVGSVGElement>(".figure-picture > svg")].find(
    (picture) => picture.getBoundingClientRect().width > 0,
  );

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

const isOnPicture = (target: EventTarget | null): boolean =>
  target instanceof Element && target.closest(".figure-picture > svg") !== null;

/** The drawing of a figure at the width in sight, with the places of its marks. */
function drawingInSight(figure: HTMLElement, live: LiveAnswer | undefined) {
  const size = inSight(figure)?.closest<HTMLElement>(".figure-picture")?.dataset.size;
  const drawing = size === "wide" ? live?.drawn?.wide : live?.drawn?.narrow;
  return drawing?.kind === "drawn" ? drawing : undefined;
}

/** Makes charts answer: point to a tray to see its row, pick a dose to follow its trays, save a picture. */
export function startChartTools(answering: Answering, trays: GridModel): (live: LiveAnswer) => void {
  const known = new Map<string, LiveAnswer>();
  const card = document.createElement("div");
  card.className = "tray-card";
  card.hidden = true;
  document.body.append(card);

  const questionOf = (figure: HTMLElement): string =>
    figure.closest<HTMLElement>("[data-question]")?.dataset.question ?? "";
  const ask = (figure: HTMLElement, then: (live: LiveAnswer) => void): void => {
    const question = questionOf(figure);
    const live = known.get(question);
    if (live !== undefined) then(live);
    else {
      answering.marks(question, edits.value, (now) => {
        known.set(question, now);
        then(now);
      });
    }
  };

  /** The mark nearest to a point of the screen, where one is near enough. */
  const markAt = (figure: HTMLElement, x: number, y: number) => {
    const drawing = drawingInSight(figure, known.get(questionOf(figure)));
    const box = inSight(figure)?.getBoundingClientRect();
    if (drawing?.marks === undefined || box === undefined) return undefined;
    const scale = box.width / drawing.width;
    let best: { mark: TrayMark; x: number; y: number; distance: number } | undefined;
    for (const mark of drawing.marks) {
      const [markX, markY] = [box.left + mark.x * scale, box.top + mark.y * scale];
      const distance = Math.hypot(markX - x, markY - y);
      if (distance <= near && distance < (best?.distance ?? near + 1)) best = { mark, x: markX, y: markY, distance };
    }
    return best;
  };
  const rowOf = (tray: string): number => trays.sheet.rows.findIndex(([id = ""]) => visibleText(id, 40) === tray);

  const shownChart = (figure: HTMLElement): Chart | undefined => {
    const live = known.get(questionOf(figure));
    return live === undefined ? undefined : chartOf(live.answer);
  };
  /** The trays a mark stands for, where it stands for several. */
  const severalOf = (figure: HTMLElement, { tray }: TrayMark): string[] | undefined => {
    const chart = shownChart(figure);
    if (chart?.kind !== "trays-by-group" || chart.pointName === undefined) return undefined;
    const name = pointNamed(chart, tray)?.name;
    return name === undefined ? undefined : traysNamed(chart, new Set([name]), current.value.book);
  };

  /** What is told of a mark: its tray's row, or how many trays it stands for. */
  const linesOf = (figure: HTMLElement, mark: TrayMark): [label: string, text: string][] => {
    const several = severalOf(figure, mark);
    if (several !== undefined) {
      const chart = shownChart(figure);
      const what = chart?.kind === "trays-by-group" ? (chart.pointName ?? "") : "";
      return [
        [`${what.charAt(0).toUpperCase()}${what.slice(1)}`, mark.tray],
        ["Trays", String(several.length)],
      ];
    }
    const row = rowOf(mark.tray);
    if (row < 0) return [];
    const rank = (key: string): number => (first.includes(key) ? first.indexOf(key) : first.length);
    return [...trays.columns]
      .sort((a, b) => rank(a.column.key) - rank(b.column.key))
      .filter(({ at }) => trays.text(row, at) !== "")
      .slice(0, 9)
      .map(({ column, at }) => {
        const unit = column.unit === "" ? "" : ` ${column.unit}`;
        return [visibleText(column.label, 40), `${trays.shown(trays.text(row, at), column)}${unit}`];
      });
  };

  const showCard = (figure: HTMLElement, mark: TrayMark, x: number, y: number, how: string): void => {
    const lines = linesOf(figure, mark).map(([label, text]) => {
      const line = document.createElement("p");
      const name = document.createElement("span");
      name.textContent = `${label} `;
      line.append(name, text);
      return line;
    });
    if (lines.length === 0) return;
    const hint = document.createElement("p");
    hint.className = "hint";
    hint.textContent = `${how} ${severalOf(figure, mark) === undefined ? "to go to its row" : "to show its trays"}`;
    card.replaceChildren(...lines, hint);
    card.hidden = false;
    const width = Math.min(260, innerWidth - 16);
    card.style.width = `${width}px`;
    card.style.left = `${Math.max(8, Math.min(x + 12, innerWidth - width - 8)) + scrollX}px`;
    card.style.top = `${y + 14 + scrollY}px`;
  };
  const hideCard = (): void => {
    card.hidden = true;
  };

  document.addEventListener("pointermove", (event) => {
    const figure = isOnPicture(event.target) ? figureOf(event.target) : undefined;
    if (figure === undefined) {
      hideCard();
      return;
    }
    if (!known.has(questionOf(figure))) ask(figure, () => undefined);
    const mark = markAt(figure, event.clientX, event.clientY);
    figure.classList.toggle("on-mark", mark !== undefined);
    if (mark === undefined) hideCard();
    else showCard(figure, mark.mark, mark.x, mark.y, "Click");
  });

  const inTraySheet = (names: ReadonlyArray<string>, what: string): void => {
    picked.value = { trays: new Set(names), what };
    trays.view.value = { ...trays.view.value };
    said.value = `${picked.value.trays.size} trays of ${what} in the tray sheet, of ${workbook().saved.book.trays.length}.`;
  };
  const bringTraySheet = (): void => document.querySelector('[data-grid="trays"]')?.scrollIntoView({ block: "center" });
  const openTraySheet = (): void => {
    const fold = document.querySelector<HTMLDetailsElement>("#trays details");
    if (fold !== null) fold.open = true;
  };
  const goTo = (figure: HTMLElement, mark: TrayMark): void => {
    hideCard();
    openTraySheet();
    const several = severalOf(figure, mark);
    if (several !== undefined) inTraySheet(several, mark.tray);
    else {
      trays.find(rowOf(mark.tray), 0);
      said.value = `Row of tray ${mark.tray}.`;
    }
    bringTraySheet();
  };
  startChartKeys({
    withMarks: (figure, then) =>
      ask(figure, (live) => {
        const drawing = drawingInSight(figure, live);
        if (drawing?.marks !== undefined) then(drawing.marks, drawing.width, drawing.height);
      }),
    tell: (figure, mark, x, y) => {
      showCard(figure, mark, x, y, "Enter");
      said.value = linesOf(figure, mark)
        .map((line) => line.join(" "))
        .join(", ");
    },
    hide: hideCard,
    goTo,
    showGroup: (figure, mark) => {
      const chart = shownChart(figure);
      const group = chart === undefined ? undefined : pointNamed(chart, mark.tray)?.group;
      if (group === undefined) return;
      const dose = doseIndex(Number.parseFloat(group), dosesOf(current.value.book.trays)) + 1;
      if (dose > 0) pick(pickOut(`dose-${dose}`, group) ? `dose-${dose}` : undefined, group);
      else if (chart !== undefined) inTraySheet(traysOfGroup(chart, group, current.value.book), group);
    },
    showAll: () => {
      hideCard();
      letGo();
      pick(undefined, "");
    },
  });
  /** The tray sheet shows the trays that are picked out. */
  const pick = (name: string | undefined, what: string): void => {
    const { trays: all } = current.value.book;
    const doses = dosesOf(all);
    const isIn = ({ inoculumMillilitres: dose, batch }: Tray): boolean =>
      pickNames(dose, batch, doses)
        .split(" ")
        .includes(name ?? "");
    const own = name === undefined ? [] : all.filter(isIn).map(({ trayId }) => trayId);
    if (own.length > 0) inTraySheet(own, what);
    else {
      picked.value = undefined;
      trays.view.value = { ...trays.view.value };
    }
  };
  startPicking(pick);
  document.addEventListener("click", (event) => {
    const tray =
      event.target instanceof Element ? event.target.closest<HTMLElement>("[data-tray]")?.dataset.tray : undefined;
    if (tray === undefined) return;
    openTraySheet();
    trays.find(rowOf(visibleText(tray, 40)), 0);
    said.value = `Row of tray ${tray}.`;
    bringTraySheet();
  });
  document.addEventListener("click", (event) => {
    const figure = figureOf(event.target);
    if (figure === undefined) return;
    if (isOnPicture(event.target)) {
      const mark = markAt(figure, event.clientX, event.clientY);
      if (mark !== undefined) goTo(figure, mark.mark);
      return;
    }
    const save =
      event.target instanceof Element ? event.target.closest<HTMLElement>("[data-save]")?.dataset.save : undefined;
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
  });
  return (live) => void known.set(live.answer.id, live);
}
