/** A reading as it would be at the nominal rail. @param factor from `railFactor` */
export function compensate(reading: number, factor: number): number {
  return reading * factor;
}
