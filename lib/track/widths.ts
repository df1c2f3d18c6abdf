/** Ranges that are off by less are left as they are: a forecast should not move for what nobody would see. */
const material = 0.02;

/**
 * The factor that ranges of a kind are to be told with, by the one in force and the one that its past asks for (1: told
 * as they come). The one in force stays unless they differ by more than 2 %, or the past asks for none any more.
 */
export function nextWidth(inForce: number, asked: number): number {
  if (Math.abs(asked - 1) <= material) return 1;
  return Math.abs(asked / inForce - 1) > material ? asked : inForce;
}
