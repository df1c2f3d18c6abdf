import { parentPort, workerData } from "node:worker_threads";
import { type TaskName, type TellShare, tasks } from "./tasks.ts";

/** The program of a worker thread: one task, then it ends. */
const { name, input } = workerData as { readonly name: TaskName; readonly input: never };
const run = tasks[name] as (input: never, tell: TellShare) => Promise<unknown>;
const result = await run(input, (share) => parentPort?.postMessage({ share }));
parentPort?.postMessage({ result });
