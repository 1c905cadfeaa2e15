/** A resistance as a shop writes it: `560 Ω`, `5.6 kΩ`, `1 MΩ`. */
export function ohmWords(ohm: number): string {
  if (ohm < 1000) return `${short(ohm)} Ω`;
  return ohm < 1e6 ? `${short(ohm / 1e3)} kΩ` : `${short(ohm / 1e6)} MΩ`;
}

/** A capacitance as a shop writes it: `330 pF`, `100 nF`, `2.2 µF`. */
export function faradWords(farad: number): string {
  if (farad < 0.9995e-9) return `${short(farad * 1e12)} pF`;
  return farad < 0.9995e-6 ? `${short(farad * 1e9)} nF` : `${short(farad * 1e6)} µF`;
}

/** `±5 %` */
export function toleranceWords(share: number): string {
  return `±${short(share * 100)} %`;
}

/** At most four digits, no padding zeros. */
export function short(value: number): string {
  return String(Number(value.toPrecision(4)));
}
