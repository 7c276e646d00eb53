import { Button, Popover, Stack } from '@mantine/core'
import { useState } from 'react'
import { ProblemPanel } from '../problem-panel.tsx'

interface Props {
  readonly label: string
  /** Where the label alone does not say of what. */
  readonly of?: string
  readonly size?: 'xs' | 'sm'
  /** What happens at once, and cannot be taken back. */
  readonly sentence: string
  readonly yes: string
  readonly no: string
  readonly isPending: boolean
  readonly error: Error | null
  /** Without it something is lost that nobody gets back. */
  readonly isHarmless?: boolean
  readonly onYes: () => void
}

/** A button for what cannot be undone, and asks for no reason: it says what will happen, and only then does it. */
export function AskOnceMore(props: Props) {
  const { label, of, size = 'sm', sentence, yes, no, isPending, error, isHarmless = false, onYes } = props
  const [isAsking, setAsking] = useState(false)
  return (
    <Popover opened={isAsking} onChange={setAsking} position="top-start" width={280} trapFocus>
      <Popover.Target>
        <Button
          variant="default"
          size={size}
          {...(of === undefined ? {} : { 'aria-label': `${label} ${of}` })}
          onClick={() => setAsking(true)}
        >
          {label}
        </Button>
      </Popover.Target>
      <Popover.Dropdown aria-label={of === undefined ? label : `${label} ${of}`}>
        <Stack gap="sm">
          <span>{sentence}</span>
          <ProblemPanel error={error} />
          <Button {...(isHarmless ? {} : { color: 'red' })} loading={isPending} onClick={onYes}>
            {yes}
          </Button>
          <Button variant="default" onClick={() => setAsking(false)}>
            {no}
          </Button>
        </Stack>
      </Popover.Dropdown>
    </Popover>
  )
}
