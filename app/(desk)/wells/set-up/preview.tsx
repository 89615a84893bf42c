import Link from 'next/link'
import { SubmitButton } from '@/app/ui/submit-button'
import { TableFrame } from '@/app/ui/table-frame'
import { slug } from '@/lib/domain/upkeep/keys'
import { paths } from '@/lib/paths'
import type { SetUpChoice, SetUpRow } from '@/lib/records/set-up'
import { setUpAlike } from './actions'

type Props = {
  rows: readonly SetUpRow[]
  choice: SetUpChoice
  hidden: readonly { name: string; value: string }[]
  /** Names of the models that were chosen; null where the wells keep theirs. */
  names: { pump: string | null; cartridge: string | null }
}

/** What would change on each well, and the button that does it. */
export function Preview({ rows, choice, hidden, names }: Props) {
  const changing = rows.filter((row) => row.pump.changes || row.cartridge.changes || row.given.length > 0)
  const given = rows.reduce((sum, row) => sum + row.given.length, 0)
  return (
    <section className="stack" aria-labelledby="preview">
      <h2 id="preview">What would change</h2>
      {changing.length === 0 ? (
        <p className="text">Nothing: the wells have all of it already, or nothing was chosen above.</p>
      ) : (
        <>
          <p className="text">
            {changing.length} of {rows.length} wells change; {given} {given === 1 ? 'duty is' : 'duties are'}{' '}
            given. Duties that a well has already keep their own limits.
          </p>
          <form action={setUpAlike}>
            {[
              ...hidden,
              { name: 'pump', value: choice.pumpModelId ?? '' },
              { name: 'cartridge', value: choice.cartridgeModelId ?? '' },
              ...choice.duties.map(({ name }) => ({ name: 'duty', value: slug(name) })),
            ].map(({ name, value }) => (
              <input key={`${name}=${value}`} type="hidden" name={name} value={value} />
            ))}
            <SubmitButton busy="Setting them up…">
              {`Set up ${changing.length} ${changing.length === 1 ? 'well' : 'wells'}`}
            </SubmitButton>
          </form>
          <TableFrame label="What would change on each well">
            <table className="table table-cards">
              <thead>
                <tr>
                  <th scope="col">Well</th>
                  <th scope="col">Pump</th>
                  <th scope="col">Cartridge</th>
                  <th scope="col">Duties given</th>
                </tr>
              </thead>
              <tbody>
                {rows.map((row) => (
                  <tr key={row.id}>
                    <th scope="row">
                      <Link href={paths.well(row.id)} prefetch={false}>
                        {row.label}
                      </Link>{' '}
                      {row.name}
                    </th>
                    <td data-label="Pump">{sayModel(row.pump, names.pump)}</td>
                    <td data-label="Cartridge">{sayModel(row.cartridge, names.cartridge)}</td>
                    <td data-label="Duties given">
                      {row.given.length === 0 ? 'none' : row.given.join(', ')}
                    </td>
                  </tr>
                ))}
              </tbody>
            </table>
          </TableFrame>
        </>
      )}
    </section>
  )
}

function sayModel({ now, changes }: SetUpRow['pump'], wanted: string | null): string {
  if (!changes) return `${now ?? 'not known'}, as it is`
  return `${now ?? 'not known'} becomes ${wanted ?? 'not known'}`
}
