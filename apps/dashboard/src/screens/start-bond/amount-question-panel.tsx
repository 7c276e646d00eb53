import type { ProblemReason } from '@clampclock/contracts'
import { isEnoughMl, wholeMl } from '@clampclock/quantities'
import { Button, Group, Textarea } from '@mantine/core'
import { TriangleAlert } from 'lucide-react'
import { useState, type SubmitEvent } from 'react'
import styles from '../../ui/answers/reasons.module.css'

interface Props {
  readonly question: ProblemReason
  /** As the form holds it now. */
  readonly amountMl: number | undefined
  readonly neededMl: number
  readonly isPending: boolean
  readonly onMend: () => void
  readonly onConfirm: (reason: string) => void
}

/** Less than the joint needs: mended by a press, or kept with a reason. */
export function AmountQuestion({ question, amountMl, neededMl, isPending, onMend, onConfirm }: Props) {
  const [reason, setReason] = useState('')
  // Mended already: the next press asks again.
  if (amountMl !== undefined && isEnoughMl(amountMl, neededMl)) return null
  const submit = (event: SubmitEvent) => {
    event.preventDefault()
    onConfirm(reason.trim())
  }
  return (
    <div className={styles['panel']} role="alert">
      <form onSubmit={submit}>
        <p className={styles['title']}>
          <TriangleAlert size={18} aria-hidden />
          Check the amount
        </p>
        <ul className={styles['list']}>
          <li>
            <p>{question.message}</p>
          </li>
        </ul>
        <p className={styles['fix']}>
          Too little adhesive leaves gaps that nobody sees. If less is right, say why: it is kept with your
          name in the bond record, and makes the joint ready no sooner.
        </p>
        <Textarea
          mt="xs"
          label="Why is less enough?"
          required
          autosize
          minLength={5}
          maxLength={2000}
          value={reason}
          onChange={(event) => setReason(event.currentTarget.value)}
        />
        <Group mt="sm" gap="xs">
          <Button size="sm" onClick={onMend}>
            Change to {wholeMl(neededMl)} mL
          </Button>
          <Button type="submit" size="sm" variant="default" loading={isPending}>
            Keep {amountMl === undefined ? 'it' : `${amountMl} mL`}
          </Button>
        </Group>
      </form>
    </div>
  )
}
