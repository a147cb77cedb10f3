// Loaded before the program (node --require): ends it as kill -9 does, just before its step number KILL_AT, a step being a
// call that changes what lies on the disk.
const fs = require("node:fs");
const { syncBuiltinESMExports } = require("node:module");

const wanted = Number(process.env.KILL_AT);
let step = 0;
for (const name of ["copyFileSync", "linkSync", "mkdirSync", "renameSync", "rmSync", "writeFileSync", "fsyncSync"]) {
  const plain = fs[name];
  fs[name] = (...args) => {
    step++;
    if (step === wanted) process.kill(process.pid, "SIGKILL");
    return plain(...args);
  };
}
syncBuiltinESMExports();
