import { refusal } from "./answers.ts";

export const unknownJob = (): Response =>
  refusal(404, "The server does not know this work any more. The list of imports says what became of it.");
