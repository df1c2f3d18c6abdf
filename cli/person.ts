import { userInfo } from "node:os";

/** The name that the person has on this machine; a container may run under a number that has none. */
export function personHere(): string {
  try {
    return userInfo().username;
  } catch {
    return "command line";
  }
}
