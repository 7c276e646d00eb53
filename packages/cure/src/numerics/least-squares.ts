/**
 * Coefficients b that make X b closest to y in the least-squares sense, with a ridge that pulls towards zero
 * as hard as `ridge` observations of size one would; solved by Cholesky decomposition of the normal
 * equations.
 *
 * @param gram X'X, row by row; @param moment X'y. Both are of `n` features.
 */
export function solveNormal(
  gram: readonly number[],
  moment: readonly number[],
  n: number,
  ridge: number,
): number[] {
  const lower = Array.from({ length: n * n }, () => 0)
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = gram[i * n + j]! + (i === j ? ridge : 0)
      for (let k = 0; k < j; k++) sum -= lower[i * n + k]! * lower[j * n + k]!
      lower[i * n + j] = i === j ? Math.sqrt(Math.max(sum, 1e-12)) : sum / lower[j * n + j]!
    }
  }
  const forward: number[] = []
  for (let i = 0; i < n; i++) {
    let sum = moment[i]!
    for (let k = 0; k < i; k++) sum -= lower[i * n + k]! * forward[k]!
    forward.push(sum / lower[i * n + i]!)
  }
  const solution = Array.from({ length: n }, () => 0)
  for (let i = n - 1; i >= 0; i--) {
    let sum = forward[i]!
    for (let k = i + 1; k < n; k++) sum -= lower[k * n + i]! * solution[k]!
    solution[i] = sum / lower[i * n + i]!
  }
  return solution
}

/** The value below which `share` of `sorted` lies, between two entries by a straight line. */
export function quantile(sorted: ArrayLike<number>, share: number): number {
  const at = Math.min(Math.max(share, 0), 1) * (sorted.length - 1)
  const low = Math.floor(at)
  const high = Math.min(low + 1, sorted.length - 1)
  return sorted[low]! + (at - low) * (sorted[high]! - sorted[low]!)
}
