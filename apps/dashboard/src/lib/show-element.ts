/** Brings to an element both the eye and the keyboard; it needs a tabIndex. */
export function showElement(element: HTMLElement | null): void {
  const isStill = matchMedia('(prefers-reduced-motion: reduce)').matches
  element?.scrollIntoView({ block: 'start', behavior: isStill ? 'auto' : 'smooth' })
  element?.focus({ preventScroll: true })
}
