/** Runs once when `next start` comes up, before the first page is asked for. */
export async function register(): Promise<void> {
  if (process.env["NEXT_RUNTIME"] === "nodejs") {
    const { prepareStore } = await import("./instrumentation-node.ts");
    await prepareStore();
  }
}
