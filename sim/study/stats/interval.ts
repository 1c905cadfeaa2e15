/** An estimate with the ends of its confidence interval. */
export interface Interval {
  estimate: number;
  low: number;
  high: number;
}
