/** Our own mark: a clamp closing on a bond line. */
export function BrandMark({ size = 26 }: { readonly size?: number }) {
  return (
    <svg width={size} height={size} viewBox="0 0 32 32" aria-hidden>
      <path d="M5 3h22v7h-4v5l-7 6-7-6v-5H5z" fill="#e7eaea" />
      <path d="M5 25h22v4H5z" fill="#f2b441" />
    </svg>
  )
}
