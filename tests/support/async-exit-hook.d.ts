declare module 'async-exit-hook' {
  const exitHook: { readonly unhookEvent: (event: string) => void }
  export default exitHook
}
