const TITLE = 22;
const FOOT = 6;

/** The height at which a value stands in a panel that has nothing in its middle and reaches so far to either side. */
export function heightOn(most: number, top: number, height: number): (value: number) => number {
  const [roof, ground] = [top + TITLE, top + height - FOOT];
  return (value) => Number(((roof + ground) / 2 - (value / most) * ((ground - roof) / 2)).toFixed(1));
}
