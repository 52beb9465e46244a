/** A log of thirty loads that no other number has. */
export function logNumber(number: number): Uint8Array {
  const lines = Array.from({ length: 30 }, (_, i) => {
    const day = new Date(Date.UTC(2001, 0, 1) + (number * 30 + i) * 43_200_000).toISOString().slice(0, 10);
    return `${day},${number * 30 + i + 1},${(9 + ((number + i) % 7) / 4).toFixed(2)},${(3 + ((number * i) % 5) / 20).toFixed(2)},${80 + (i % 20)}`;
  });
  return new TextEncoder().encode(`Date,Batch no,Fresh (kg),Dried (kg),Minutes\n${lines.join("\n")}\n`);
}
