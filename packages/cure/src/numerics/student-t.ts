/**
 * Share of Student's t distribution between -t and t, for whole degrees of freedom (Abramowitz and Stegun
 * 26.7.3, 26.7.4).
 */
function centralShare(t: number, degreesOfFreedom: number): number {
  const angle = Math.atan2(t, Math.sqrt(degreesOfFreedom))
  const [sin, cos] = [Math.sin(angle), Math.cos(angle)]
  const isOdd = degreesOfFreedom % 2 === 1
  let term = isOdd ? cos : 1
  let sum = degreesOfFreedom === 1 ? 0 : term
  for (let k = isOdd ? 3 : 2; k <= degreesOfFreedom - 2; k += 2) {
    term *= ((k - 1) / k) * cos * cos
    sum += term
  }
  return isOdd ? (2 / Math.PI) * (angle + sin * sum) : sin * sum
}

/**
 * The t with `confidence` of the distribution between -t and t.
 *
 * @param confidence above 0, below 1.
 * @param degreesOfFreedom a whole number, 1 or more.
 * @throws RangeError outside those.
 */
export function studentT(confidence: number, degreesOfFreedom: number): number {
  if (!(confidence > 0 && confidence < 1)) {
    throw new RangeError(`confidence is ${confidence}, but must be between 0 and 1: give 0.95 for 95 %`)
  }
  if (!(Number.isInteger(degreesOfFreedom) && degreesOfFreedom >= 1)) {
    throw new RangeError(`degreesOfFreedom is ${degreesOfFreedom}, but must be a whole number, 1 or more`)
  }
  let [low, high] = [0, 1]
  while (centralShare(high, degreesOfFreedom) < confidence) high *= 2
  for (let step = 0; step < 80; step++) {
    const middle = (low + high) / 2
    if (centralShare(middle, degreesOfFreedom) < confidence) low = middle
    else high = middle
  }
  return (low + high) / 2
}
