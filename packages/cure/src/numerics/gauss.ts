/** Nodes on [-1, 1] and weights that sum to 2. */
export interface GaussRule {
  readonly nodes: readonly number[]
  readonly weights: readonly number[]
}

/**
 * Gauss-Legendre rule with `n` nodes, by Newton's method on the Legendre polynomial P_n from the usual cosine
 * start (Press et al., Numerical Recipes, section 4.6; formula: weights 2 / ((1 - x^2) P_n'(x)^2)).
 */
export function gaussLegendre(n: number): GaussRule {
  const nodes: number[] = []
  const weights: number[] = []
  for (let i = 0; i < n; i++) {
    let x = -Math.cos((Math.PI * (i + 0.75)) / (n + 0.5))
    let slope = 1
    for (let step = 0; step < 20; step++) {
      const [value, derivative] = legendre(n, x)
      slope = derivative
      const dx = value / derivative
      x -= dx
      if (Math.abs(dx) < 1e-16) break
    }
    nodes.push(x)
    weights.push(2 / ((1 - x * x) * slope * slope))
  }
  return { nodes, weights }
}

function legendre(n: number, x: number): readonly [value: number, derivative: number] {
  let before = 1
  let value = x
  for (let k = 2; k <= n; k++) {
    const next = ((2 * k - 1) * x * value - (k - 1) * before) / k
    before = value
    value = next
  }
  return [value, (n * (x * value - before)) / (x * x - 1)]
}
