import { today } from "../cli/today.ts";
import { builtLive, workerScript } from "./packed-programs.ts";
import { pageLocale } from "./page-number.ts";
import { trustedWorkerAddress } from "./trusted-texts.ts";
import type { SheetInHand, WorkNews, WorkOrder } from "./worker/messages.ts";

/** Work under way. */
export interface RunningWork {
  /** ends it at once; no more news comes */
  stop(): void;
}

/**
 * Gives an order to a worker of its own, made from the script this page carries.
 * @param tell called with every piece of news, trouble of the worker itself included
 */
export function startWorker(
  order: Omit<WorkOrder, "live" | "locale" | "today" | "sheets"> & { sheets: ReadonlyArray<SheetInHand> },
  tell: (news: WorkNews) => void,
): RunningWork {
  let worker: Worker | undefined;
  let isStopped = false;
  const tellUnlessStopped = (news: WorkNews) => {
    if (!isStopped) tell(news);
  };
  const trouble = (text: string) => tellUnlessStopped({ kind: "trouble", text });
  const start = async (script: string) => {
    const sheets = await Promise.all(
      order.sheets.map(async ({ path, bytes }) => ({ path, bytes: await bytes.arrayBuffer() })),
    );
    if (isStopped) return;
    worker = new Worker(trustedWorkerAddress(script));
    worker.addEventListener("message", ({ data }: MessageEvent<WorkNews>) => tellUnlessStopped(data));
    worker.addEventListener("error", (event) => {
      event.preventDefault();
      trouble(event.message || "the worker could not be started");
    });
    const whole: WorkOrder = { ...order, sheets, live: builtLive(), locale: pageLocale, today: today() };
    worker.postMessage(
      whole,
      sheets.map(({ bytes }) => bytes),
    );
  };
  workerScript()
    .then(start)
    .catch((error: unknown) => trouble(error instanceof Error ? error.message : String(error)));
  return {
    stop() {
      isStopped = true;
      worker?.terminate();
    },
  };
}
