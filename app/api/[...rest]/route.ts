import { refusal } from "../_http/answers.ts";

/** Programs are told in the API's own form, not by a page, that nothing is at an address below `/api/`. */
const nothingHere = (): Response => refusal(404, "The API has nothing at this address. Check how it is written.");

export const GET = nothingHere;
export const POST = nothingHere;
export const PUT = nothingHere;
export const PATCH = nothingHere;
export const DELETE = nothingHere;
