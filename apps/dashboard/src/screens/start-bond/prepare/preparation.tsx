import { Button } from '@mantine/core'
import { CheckCheck } from 'lucide-react'
import { useId } from 'react'
import { Drawing } from '../../../features/bonds/drawings/drawing.tsx'
import { t } from '../../../lib/reader.ts'
import { Step, type StepState } from '../step.tsx'
import { sourceOf } from './guide.tsx'
import styles from './prepare.module.css'
import type { AskedStep, PreparationStep } from './steps-asked.ts'

interface Props {
  readonly asked: readonly AskedStep[]
  readonly done: readonly PreparationStep[]
  readonly state: StepState
  readonly onChange: (done: readonly PreparationStep[]) => void
  /** Everything was ticked at once. */
  readonly onAll: () => void
}

/** The technician's own word, step by step; kept with the bond. */
export function Preparation({ asked, done, state, onChange, onAll }: Props) {
  const isOpen = asked.some(({ code }) => !done.includes(code))
  return (
    <Step title={t('start-bond.n2Prepare')} state={state}>
      <div className={styles['steps']}>
        {asked.map((step) => (
          <Item
            key={step.code}
            step={step}
            isDone={done.includes(step.code)}
            onToggle={() =>
              onChange(
                done.includes(step.code) ? done.filter((code) => code !== step.code) : [...done, step.code],
              )
            }
          />
        ))}
      </div>
      {isOpen && (
        <Button
          data-open="preparation"
          variant="default"
          size="lg"
          fullWidth
          mt="sm"
          leftSection={<CheckCheck size={20} aria-hidden />}
          onClick={() => {
            onChange(asked.map(({ code }) => code))
            onAll()
          }}
        >
          {t('start-bond.allOfTheseAreDone')}
        </Button>
      )}
    </Step>
  )
}

interface ItemProps {
  readonly step: AskedStep
  readonly isDone: boolean
  readonly onToggle: () => void
}

function Item({ step, isDone, onToggle }: ItemProps) {
  const id = useId()
  return (
    <label className={styles['step']}>
      <input
        type="checkbox"
        checked={isDone}
        aria-labelledby={id}
        aria-describedby={`${id}why`}
        onChange={onToggle}
      />
      <span>
        <strong id={id}>{t(step.title)}</strong>
        <small id={`${id}why`}>{t(step.why)}</small>
        <small className={styles['source']}>{sourceOf(step.isOnFile)}</small>
      </span>
      <Drawing of={step.drawing} />
    </label>
  )
}
