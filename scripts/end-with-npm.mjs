/** A stopped npm takes down the shell it started, but not what that shell was running: this notices, and stops as well. */

/** Sends SIGTERM to this process when the one that started it on npm's behalf is gone. */
export function endWithNpm() {
  if (process.env.npm_lifecycle_event === undefined) return;
  const parent = process.ppid;
  const watch = setInterval(() => {
    if (process.ppid === parent) return;
    clearInterval(watch);
    process.kill(process.pid, "SIGTERM");
  }, 500);
  watch.unref();
}
