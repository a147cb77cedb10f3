// Loaded before the program (node --require): writes the processor time and the memory it took when it ends.
const { readFileSync, writeFileSync } = require("node:fs");

process.on("exit", () => {
  const { userCPUTime, systemCPUTime, maxRSS } = process.resourceUsage();
  // Linux counts the memory of the process that began this one into maxRSS
  const own = process.platform === "linux" ? /VmHWM:\s*(\d+)/.exec(readFileSync("/proc/self/status", "utf8")) : null;
  const kilobytes = own === null ? maxRSS : Number(own[1]);
  writeFileSync(
    process.env.MEASURE_INTO,
    JSON.stringify({ seconds: (userCPUTime + systemCPUTime) / 1e6, megabytes: kilobytes / 1024 }),
  );
});
