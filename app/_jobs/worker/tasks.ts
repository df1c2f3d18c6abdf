import { solver } from "../solver.ts";
import { bridgeTask } from "./bridge-task.ts";
import { budgetTask } from "./budget-task.ts";
import { planTask } from "./plan-task.ts";
import { scenarioTask } from "./scenario-task.ts";

/** How far a task is: a share from 0 to 1; null: not known. */
export type TellShare = (share: number | null) => void;

/**
 * What is reckoned for so long that pages would wait for it, by name. Input and result are copied between threads
 * (structured clone): plain data, no functions.
 */
export const tasks = {
  plan: async (input: Parameters<typeof planTask>[1], tell: TellShare) => planTask(await solver(), input, tell),
  budget: async (input: Parameters<typeof budgetTask>[0], tell: TellShare) => budgetTask(input, tell),
  bridge: async (input: Parameters<typeof bridgeTask>[0], tell: TellShare) => bridgeTask(input, tell),
  scenario: async (input: Parameters<typeof scenarioTask>[1], tell: TellShare) =>
    scenarioTask(await solver(), input, tell),
};

export type Tasks = typeof tasks;
export type TaskName = keyof Tasks;
export type TaskInput<N extends TaskName> = Parameters<Tasks[N]>[0];
export type TaskResult<N extends TaskName> = Awaited<ReturnType<Tasks[N]>>;

/** Runs a task somewhere; the signal ends it with its reason. */
export type RunTask = <N extends TaskName>(
  name: N,
  input: TaskInput<N>,
  control: { readonly tell?: TellShare; readonly signal?: AbortSignal },
) => Promise<TaskResult<N>>;

/** Where nothing else waits for this thread. */
export const inThisThread: RunTask = (name, input, { tell = () => {} }) =>
  (tasks[name] as (input: unknown, tell: TellShare) => Promise<never>)(input, tell);
