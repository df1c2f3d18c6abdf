/** A bar from the middle of its track, both in per cent of the track: to the left for sooner, to the right for later. */
export function barOf(laterDays: number | null, most: number): { readonly left: number; readonly width: number } {
  // Without the test there would be no date: the bar runs out of the track.
  if (laterDays === null) return { left: 50, width: 50 };
  if (most === 0) return { left: 50, width: 0 };
  const width = (50 * Math.abs(laterDays)) / most;
  return { left: laterDays < 0 ? 50 - width : 50, width };
}
