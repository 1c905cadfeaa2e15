/**
 * Time that a cell lasts.
 * @param capacityMAh printed on the cell
 * @param share of it that is usable, 0-1
 */
export function hoursOnCell(capacityMAh: number, share: number, currentMA: number): number {
  return (capacityMAh * share) / currentMA;
}

/**
 * Current that a switching regulator takes from the cell.
 * @param efficiency 0-1
 */
export function cellCurrentMA(loadMA: number, loadV: number, cellV: number, efficiency: number): number {
  return (loadMA * loadV) / (cellV * efficiency);
}
