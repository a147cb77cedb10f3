// Runs in a worker: takes one order, tells the news, and is done. A page that wants it stopped ends the worker.
import { bytesSource } from "./bytes-source.ts";
import type { WorkNews, WorkOrder } from "./messages.ts";
import { workOnBook } from "./work-on-book.ts";

const tell = (news: WorkNews): void => self.postMessage(news);

self.addEventListener("message", async ({ data }: MessageEvent<WorkOrder>) => {
  const sources = data.sheets.map(({ path, bytes }) => bytesSource(path, new Uint8Array(bytes)));
  try {
    await workOnBook(sources, data.answers, data.name, tell, {
      built: data.live,
      locale: data.locale,
      today: data.today,
    });
  } catch (error) {
    tell({ kind: "trouble", text: error instanceof Error ? `${error.name}: ${error.message}` : String(error) });
  }
});
