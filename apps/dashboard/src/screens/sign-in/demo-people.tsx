import { useQuery } from '@tanstack/react-query'
import { LogIn } from 'lucide-react'
import { demoQuery, type DemoPerson } from '../../api/queries/demo.ts'
import { roleWord, type Role } from '../../api/permissions.ts'
import styles from '../../ui/front-page.module.css'
import { t } from '../../lib/reader.ts'

interface Props {
  readonly isBusy: boolean
  readonly onChoose: (person: DemoPerson) => void
}

/** The invented people of the demo chain, one press each. Not there on a server without demo data. */
export function DemoPeople({ isBusy, onChoose }: Props) {
  const { data: people = [] } = useQuery(demoQuery())
  if (people.length === 0) return null
  return (
    <section className={styles['demo']} aria-label={t('sign-in.demoSignIns')}>
      <h2>{t('sign-in.demoChainSignInAs')}</h2>
      <ul>
        {people.map((person) => (
          <li key={person.email}>
            <button type="button" disabled={isBusy} onClick={() => onChoose(person)}>
              <LogIn size={16} aria-hidden />
              <span>
                <strong>{person.name}</strong>
                <span>
                  {roleWord(person.role as Role) ?? person.role} · {person.shop}
                </span>
                <span className={styles['secret']}>
                  {person.email} · {person.password}
                </span>
              </span>
            </button>
          </li>
        ))}
      </ul>
    </section>
  )
}
