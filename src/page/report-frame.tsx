import { useEffect, useRef, useState } from "preact/hooks";
import { trustedFrameDocument } from "./trusted-texts.ts";
import { isReportLive, progress, report } from "./workbench.ts";

/**
 * The report as it would be saved, in a frame that reaches nothing: neither the network, nor the page around it. Of
 * scripts only those that make it live may run, known by their hashes; what they save the browser hands to the reader.
 */
export function ReportFrame() {
  const [isLarge, setLarge] = useState(false);
  const frame = useRef<HTMLIFrameElement>(null);
  const written = report.value;
  useEffect(() => {
    let isStale = false;
    written?.text().then((html) => {
      if (!isStale && frame.current !== null) frame.current.srcdoc = trustedFrameDocument(html);
    });
    return () => {
      isStale = true;
    };
  }, [written]);
  if (written === undefined) {
    return progress.value.state === "working" ? <p class="quiet">The full report follows the answers.</p> : null;
  }
  return (
    <section aria-labelledby="frame-title" class={isLarge ? "block report-block large" : "block report-block"}>
      <div class="block-head">
        <h2 id="frame-title">Full report</h2>
        <button type="button" class="small" aria-pressed={isLarge} onClick={() => setLarge(!isLarge)}>
          {isLarge ? "Back to the sheets" : "Fill the window"}
        </button>
      </div>
      <p class="quiet">
        {isReportLive.value
          ? "Costs, products, trays and settings can be changed in it, and the answers follow. The saved report is of the sheets as they were dropped: to keep a change, save the changed sheet and drop it here."
          : "A book of so many trays is reported without sheets to change: change the sheets and drop them again."}
      </p>
      <iframe ref={frame} class="report-frame" title="Full report" sandbox="allow-scripts allow-downloads" />
    </section>
  );
}
