import { useEffect, useSyncExternalStore } from 'react'

const KEY = 'clampclock.calls'
const watchers = new Set<() => void>()

/** Whether this device sounds and vibrates: a phone in the pocket may, while a screen in the office need not. */
function callsAreOn(): boolean {
  try {
    return localStorage.getItem(KEY) !== 'off'
  } catch {
    return true
  }
}

export function useCallsAreOn(): boolean {
  return useSyncExternalStore((watcher) => {
    watchers.add(watcher)
    return () => watchers.delete(watcher)
  }, callsAreOn)
}

export function setCalls(isOn: boolean): void {
  try {
    localStorage.setItem(KEY, isOn ? 'on' : 'off')
  } catch {
    // Without storage it holds until the page is closed: on, as it is at first.
  }
  for (const watcher of watchers) watcher()
}

let audio: AudioContext | undefined

/** Browsers let a page sound once somebody has touched it. */
function readyAudio(): AudioContext | undefined {
  if (typeof AudioContext === 'undefined') return undefined
  audio ??= new AudioContext()
  if (audio.state === 'suspended') void audio.resume().catch(() => undefined)
  return audio
}

/** Two tones, or five where somebody must act within the minute; felt too where the device can. */
export function ring(isUrgent: boolean): void {
  if (!callsAreOn()) return
  const tones = isUrgent ? 5 : 2
  try {
    navigator.vibrate?.(Array.from({ length: tones * 2 - 1 }, (_, i) => (i % 2 === 0 ? 300 : 120)))
    const context = readyAudio()
    if (context === undefined) return
    for (let i = 0; i < tones; i += 1) {
      const startsAt = context.currentTime + i * 0.32
      const tone = context.createOscillator()
      const loudness = context.createGain()
      tone.frequency.value = isUrgent ? 1320 : 880
      // Swells and fades: a tone that is cut off clicks.
      loudness.gain.setValueAtTime(0.0001, startsAt)
      loudness.gain.exponentialRampToValueAtTime(0.5, startsAt + 0.02)
      loudness.gain.exponentialRampToValueAtTime(0.0001, startsAt + 0.22)
      tone.connect(loudness).connect(context.destination)
      tone.start(startsAt)
      tone.stop(startsAt + 0.24)
    }
  } catch {
    // What cannot sound is still said, and shown.
  }
}

/** Keeps the screen lit while it matters: gloves do not unlock a phone. Where the browser cannot, nothing happens. */
export function useLitScreen(isOn: boolean): void {
  useEffect(() => {
    if (!isOn || !('wakeLock' in navigator)) return undefined
    let isOver = false
    let lock: WakeLockSentinel | undefined
    const take = async () => {
      if (document.visibilityState !== 'visible') return
      try {
        const taken = await navigator.wakeLock.request('screen')
        if (isOver) await taken.release()
        else lock = taken
      } catch {
        // A battery that is nearly empty may refuse it.
      }
    }
    void take()
    // The browser lets it go when the page is out of sight.
    const again = () => void take()
    document.addEventListener('visibilitychange', again)
    return () => {
      isOver = true
      document.removeEventListener('visibilitychange', again)
      void lock?.release().catch(() => undefined)
    }
  }, [isOn])
}
