//! Reading and writing `calibration.json`: what the test solves have taught, so that no command has to solve the whole
//! pack and fit anew before it can name a minute.

use std::collections::BTreeMap;

use grade::{Calibration, Pace, Solver, Wait};
use serde::{Deserialize, Serialize};
use trail::TechniqueId;

use crate::json::{problem, read_json};
use crate::phrases::{all_of, quoted};
use crate::{Code, FORMAT, Problem, SourceFile};

/// What the solves of a pack have taught. By default nothing: minutes are estimates.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Calibrations {
    /// From solves in silence; minutes for solvers come from it.
    pub silent: Calibration,
    /// From solves that were talked aloud.
    pub aloud: Calibration,
}

/// Reads `calibration.json`. A file with an error calibrates nothing.
pub fn read_calibration(file: &SourceFile) -> (Calibrations, Vec<Problem>) {
    let written: Written = match read_json(file, "a calibration") {
        Ok(it) => it,
        Err(problem) => return (Calibrations::default(), vec![problem]),
    };
    let mut unknown = Vec::new();
    let read = written
        .silent
        .read(&mut unknown)
        .and_then(|silent| Ok(Calibrations { silent, aloud: written.aloud.read(&mut unknown)? }));
    let read = match read {
        Ok(it) => it,
        Err(ratio) => {
            let [least, most] = Calibration::RATIOS;
            let message = format!("the ratio {ratio} is not from {least} to {most}");
            let help = Some("write it anew with `galley calibrate PACK --write`".to_owned());
            let problem = Problem { help, ..problem(Code::NotAsWritten, file, message) };
            return (Calibrations::default(), vec![problem]);
        }
    };
    let mut problems = Vec::new();
    if !unknown.is_empty() {
        unknown.sort();
        unknown.dedup();
        let names = all_of(unknown.iter().map(|it| quoted(it)));
        let message = format!("there is no technique {names}, so its wait is not corrected");
        let help = Some("write it anew with `galley calibrate PACK --write`".to_owned());
        problems.push(Problem { help, ..problem(Code::CalibrationOutdated, file, message) });
    }
    (read, problems)
}

/// The file of those calibrations, which [`read_calibration`] reads back as they are.
pub fn write_calibration(calibrations: &Calibrations) -> String {
    let Calibrations { silent, aloud } = calibrations;
    let written = Written { format: FORMAT, silent: silent.into(), aloud: aloud.into() };
    // Numbers and names only, so there is nothing that cannot be written.
    let text = serde_json::to_string_pretty(&written);
    text.unwrap_or_else(|it| unreachable!("a calibration that cannot be written: {it}")) + "\n"
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Written {
    format: u8,
    silent: Manner,
    aloud: Manner,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Manner {
    newcomer: WrittenPace,
    regular: WrittenPace,
    #[serde(rename = "old hand")]
    old_hand: WrittenPace,
    techniques: BTreeMap<String, WrittenWait>,
}

#[derive(Clone, Copy, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct WrittenPace {
    ratio: f64,
    solves: usize,
}

#[derive(Clone, Copy, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct WrittenWait {
    ratio: f64,
    steps: usize,
}

impl Manner {
    /// The calibration, or the ratio that cannot be; technique names that are not known go into `unknown`.
    fn read(self, unknown: &mut Vec<String>) -> Result<Calibration, f64> {
        let pace = |it: WrittenPace| Pace { ratio: it.ratio, n_solves: it.solves };
        let mut waits = BTreeMap::new();
        for (name, it) in self.techniques {
            match technique_named(&name) {
                Some(id) => _ = waits.insert(id, Wait { ratio: it.ratio, n_steps: it.steps }),
                None => unknown.push(name),
            }
        }
        Calibration::new([self.newcomer, self.regular, self.old_hand].map(pace), waits)
    }
}

impl From<&Calibration> for Manner {
    fn from(it: &Calibration) -> Manner {
        let pace = |kind: Solver| {
            let found = it.paces().find(|(solver, _)| solver.name == kind.name);
            let pace = found.map_or(Pace::default(), |it| it.1);
            WrittenPace { ratio: pace.ratio, solves: pace.n_solves }
        };
        let wait = |(id, it): (TechniqueId, Wait)| {
            (id.name().to_owned(), WrittenWait { ratio: it.ratio, steps: it.n_steps })
        };
        Manner {
            newcomer: pace(grade::NEWCOMER),
            regular: pace(grade::REGULAR),
            old_hand: pace(grade::OLD_HAND),
            techniques: it.waits().map(wait).collect(),
        }
    }
}

/// The technique of that name; small arguments have one too.
fn technique_named(name: &str) -> Option<TechniqueId> {
    let is_argument = name == TechniqueId::SMALL_ARGUMENT.name();
    reason::named(name).or(is_argument.then_some(TechniqueId::SMALL_ARGUMENT))
}
