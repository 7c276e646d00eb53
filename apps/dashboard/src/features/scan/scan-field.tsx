import { ActionIcon, Loader, TextInput } from '@mantine/core'
import { useDisclosure } from '@mantine/hooks'
import { Camera, ScanLine } from 'lucide-react'
import { useEffect, useRef, useState, type KeyboardEvent } from 'react'
import { CameraDialog } from './camera-dialog.tsx'
import { isSeparatorKey, SEPARATOR } from './separators.ts'
import styles from './scan.module.css'
import { t } from '../../lib/reader.ts'

interface Props {
  readonly label: string
  readonly description?: string
  readonly error?: string | undefined
  readonly isPending: boolean
  readonly onScan: (text: string) => void
  /** Hears each letter, for suggestions. */
  readonly onType?: (text: string) => void
  /** Change it to have the field take the focus again: after a scan was dealt with. */
  readonly focusKey?: unknown
}

/**
 * Where a hand scanner types and ends with Enter, or a person does, or the camera reads. It has the focus when the screen
 * opens, after each scan, and whenever nothing else on the screen has it.
 */
export function ScanField({ label, description, error, isPending, onScan, onType, focusKey }: Props) {
  const [text, setText] = useState('')
  const [isCamera, camera] = useDisclosure()
  const input = useRef<HTMLInputElement>(null)
  useEffect(() => {
    // After the page's heading has had the focus, so that a screen reader hears where it is.
    const timer = setTimeout(() => input.current?.focus({ preventScroll: true }), 0)
    return () => clearTimeout(timer)
  }, [focusKey])

  const send = (scanned: string) => {
    if (scanned.trim() === '') return
    onScan(scanned)
    setText('')
  }
  const onKeyDown = (event: KeyboardEvent<HTMLInputElement>) => {
    if (isSeparatorKey(event)) {
      event.preventDefault()
      setText((typed) => typed + SEPARATOR)
    } else if (event.key === 'Enter') {
      event.preventDefault()
      send(event.currentTarget.value)
    }
  }
  return (
    <div className={styles['field']}>
      <TextInput
        ref={input}
        label={label}
        {...(description === undefined ? {} : { description })}
        error={error}
        size="md"
        autoComplete="off"
        spellCheck={false}
        leftSection={isPending ? <Loader size="xs" aria-hidden /> : <ScanLine size={18} aria-hidden />}
        value={text}
        onChange={(event) => {
          setText(event.currentTarget.value)
          onType?.(event.currentTarget.value)
        }}
        onKeyDown={onKeyDown}
        onBlur={() => setTimeout(takeFocusIfFree, 0, input.current)}
      />
      <ActionIcon
        size={42}
        variant="default"
        aria-label={t('features.scanWithTheCamera')}
        onClick={camera.open}
      >
        <Camera size={20} aria-hidden />
      </ActionIcon>
      {isCamera && (
        <CameraDialog
          onClose={camera.close}
          onScan={(scanned) => {
            camera.close()
            send(scanned)
          }}
        />
      )}
    </div>
  )
}

/** A click beside every control leaves the focus on the page: the next scan would be lost. */
function takeFocusIfFree(input: HTMLInputElement | null): void {
  if (document.activeElement === document.body) input?.focus({ preventScroll: true })
}
