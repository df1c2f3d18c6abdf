import { existsSync } from "node:fs";
import path from "node:path";
import { Worker } from "node:worker_threads";
import { projectFolder } from "../../../db/migrations-folder.ts";
import { JobError } from "../job-registry.ts";
import type { RunTask } from "./tasks.ts";

type News = { readonly share: number | null } | { readonly result: never };

/** As the start of the app builds it beside the command line. */
const builtProgram = (): string => path.join(projectFolder(), "dist", "worker.mjs");

/**
 * Runs a task in a thread of its own, so that pages are answered meanwhile. A signal ends the thread at once, whatever it
 * is busy with: a task keeps nothing itself.
 */
export const inWorker =
  (program: () => string = builtProgram): RunTask =>
  (name, input, { tell = () => {}, signal }) => {
    const file = program();
    if (!existsSync(file))
      throw new JobError(
        "A part of Borecast that reckons plans is not built. Stop the app and start it with npm start.",
      );
    signal?.throwIfAborted();
    // Written so that the bundler of the pages does not take the whole project for what the thread may run.
    const worker: Worker = Reflect.construct(Worker, [file, { workerData: { name, input } }]);
    return new Promise((resolve, reject) => {
      const end = () => {
        signal?.removeEventListener("abort", cancel);
        void worker.terminate();
      };
      const cancel = () => {
        end();
        reject(signal?.reason);
      };
      signal?.addEventListener("abort", cancel, { once: true });
      worker.on("message", (news: News) => {
        if ("share" in news) return tell(news.share);
        end();
        resolve(news.result);
      });
      worker.on("error", (error) => {
        end();
        reject(error);
      });
      worker.on("exit", (code) => {
        end();
        // After a result this changes nothing.
        reject(new Error(`the worker of ${name} ended with ${code} before it had a result`));
      });
    });
  };
