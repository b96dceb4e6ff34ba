//! What was typed, and the texts of `--help`. What it means is for [`Job`](crate::job::Job).

mod desk;
mod make;
mod recordings;
mod season;

use std::path::PathBuf;

use captions::Time;
use clap::builder::PossibleValuesParser;
use clap::builder::TypedValueParser;
use clap::{Args, Parser, Subcommand};
use pack::{Day, Form};
use reason::TECHNIQUES;

pub(crate) use desk::RawDesk;
pub(crate) use make::{RawClues, RawLook, RawMake};
pub(crate) use recordings::{RawHeard, RawOne, RawPicture, RawPlan, RawRecording, RawReview};
pub(crate) use season::RawSeason;

use crate::jobs::Move;

const ABOUT: &str = "Proves, explains, grades and orders the puzzles of a teaching pack";

const LONG_ABOUT: &str = "\
Galley takes a pack of puzzles (a folder with `pack.toml` and one file a puzzle in `puzzles`) and gives \
back a pack that is proved, explained, graded and ordered.

PACK is such a folder. The path of a single puzzle file works wherever a pack does.";

const EXIT_CODES: &str = "\
Exit codes:
  0  everything is all right
  1  the work was done, and the pack has problems; each was printed with its place and the next move
  2  the program could not do its work: wrong arguments, a missing path, a folder it cannot write to";

/// The examples of a command and the exit codes.
macro_rules! examples {
    ($($line:literal)*) => {
        concat!("Examples:\n", $("  galley ", $line, "\n",)* "
Exit codes:
  0  everything is all right
  1  the work was done, and the pack has problems
  2  the program could not do its work")
    };
}

#[derive(Debug, Parser)]
#[command(name = "galley", version, about = ABOUT, long_about = LONG_ABOUT, after_help = EXIT_CODES)]
#[command(arg_required_else_help = true, max_term_width = 100)]
pub(crate) struct RawArgs {
    #[command(subcommand)]
    pub(crate) command: RawCommand,

    /// Print one JSON document instead of words (described in docs/json.md)
    #[arg(long, global = true, help_heading = "Output")]
    pub(crate) json: bool,

    /// No progress bar and no closing notes; problems are printed all the same
    #[arg(long, short, global = true, help_heading = "Output")]
    pub(crate) quiet: bool,
}

#[derive(Debug, Subcommand)]
pub(crate) enum RawCommand {
    /// Start a pack: a folder whose files teach the format
    #[command(after_help = examples!("new lantern-room"))]
    New {
        /// The folder to make; it must not exist, or be empty
        dir: PathBuf,
    },

    /// Read the files, and prove how many solutions each puzzle has
    ///
    /// A file that does not end in .toml is a list with a grid a line, as public collections of puzzles are:
    /// a character a cell, row by row, `.` or 0 for an empty one. Each line is proved, and those without exactly one
    /// solution are named; with --json there is a document a line.
    #[command(after_help = examples!(
        "check lantern-room" "check lantern-room/puzzles/first-light.toml" "check --json lantern-room"
        "check grids.txt"
    ))]
    Check {
        #[command(flatten)]
        target: RawTarget,

        #[command(flatten)]
        archive: RawArchive,
    },

    /// Print a walkthrough of each puzzle, or of one: every step with its reasons, and no guess
    #[command(after_help = examples!(
        "explain lantern-room first-light" "explain first-light.toml" "explain --unseal lantern-room low-tide"
        "explain lantern-room low-tide --knows hidden-single,crust-distance,last-in-sum"
    ))]
    Explain {
        #[command(flatten)]
        each: RawEach,

        #[command(flatten)]
        knows: RawKnows,
    },

    /// Say how long a puzzle takes a newcomer to the genre, a regular and an old hand, and why
    ///
    /// The minutes come from many solves in thought along the walkthrough: at each step, what is open is noticed
    /// sooner or later, depending on how hard it is to see, how much of it is open and how near the eye is.
    #[command(after_help = examples!(
        "grade lantern-room" "grade lantern-room first-light" "grade first-light.toml --knows hidden-single"
    ))]
    Grade {
        #[command(flatten)]
        each: RawEach,

        #[command(flatten)]
        knows: RawKnows,
    },

    /// Hold the expected minutes against the test solves in the pack's folder `solves`, and say what they teach
    ///
    /// How long each kind of solver takes and how soon each technique is noticed is fitted to all solves
    /// together, with a few slips and telephone calls among them; solves that were talked aloud are fitted
    /// apart. How much it would help is measured by leaving out one puzzle at a time. Too few solves move
    /// nothing, and it is said how many are missing. The solves of sealed puzzles are left out.
    #[command(after_help = examples!("calibrate lantern-room" "calibrate lantern-room --write"))]
    Calibrate {
        #[command(flatten)]
        target: RawTarget,

        /// Keep what they teach in calibration.json in the pack; every command then names minutes by it
        #[arg(long)]
        write: bool,
    },

    /// Say why a cell holds its digit, why it is not another, or why it is a crust or filling: the shortest
    /// proof found, back to the page
    ///
    /// With --at it is asked what is spoken at a time of a published recording: the step, or between which it must be, an
    /// answer of at most 80 words, and the address of the step.
    #[command(after_help = examples!(
        "why lantern-room first-light r4c7"
        "why lantern-room first-light r4c7 --not 5"
        "why first-light.toml r4c7 --crust"
        "why lantern-room first-light --at 12:05 --recording first-light.vtt --picture board.svg"
    ))]
    Why(RawWhy),

    /// Say whether a claim about a cell is true, and whether it follows from a board as far as it is filled
    ///
    /// If it follows, the steps are printed; if it is true but does not follow yet, what has to be known
    /// first; if it is not true, what the cell holds. A wrong digit on the board is named. Whatever the
    /// answer, the exit code is 0. Small arguments are not counted on.
    #[command(allow_missing_positional = true, after_help = examples!(
        "judge lantern-room first-light \"r4c7 is 5\""
        "judge first-light.toml \"r4c7 is not 5\" --at 8........9.72.68..."
        "judge lantern-room first-light \"r4c7 is a crust\" --within 4"
    ))]
    Judge(RawJudge),

    /// Of a puzzle without a solution: what contradicts itself, and every change of one thing printed that
    /// leaves a solution
    ///
    /// Every given and every clue is replaced by each other value that could stand there, and left out. What
    /// leaves exactly one solution comes first, the likeliest slips of hand and eye before the others.
    #[command(after_help = examples!(
        "mend lantern-room" "mend lantern-room first-light" "mend --json first-light.toml"
    ))]
    Mend {
        #[command(flatten)]
        each: RawEach,

        /// Print every change, however many there are
        #[arg(long)]
        all: bool,
    },

    /// Of a puzzle with several solutions: where two of them differ, and the fewest givens or clues to add
    /// so that one is left
    #[command(after_help = examples!(
        "settle lantern-room first-light"
        "settle first-light.toml --solution 124893675378615294…"
    ))]
    Settle {
        #[command(flatten)]
        each: RawEach,

        /// The solution to be left, as the setter has it: one character a cell, row by row [default: each
        /// of the two that were found]
        #[arg(long, value_name = "GRID")]
        solution: Option<String>,
    },

    /// Of a puzzle with one solution: which givens and clues it could do without, and a form of it with
    /// nothing to spare
    #[command(after_help = examples!("spare lantern-room first-light" "spare --json first-light.toml"))]
    Spare(RawEach),

    /// Say which puzzles are the same seen from another side, or have the same solution
    ///
    /// Two sandwich puzzles are the same if turning or mirroring the board, or exchanging its 1s with its largest
    /// digits, turns one into the other; two puzzles without clues also if exchanging rows, columns or
    /// digits does. The solutions of sealed puzzles are not compared.
    #[command(after_help = examples!("twins lantern-room" "twins lantern-room ../last-year/harbour-steps"))]
    Twins {
        /// Packs' folders or puzzle files
        #[arg(required = true, value_name = "PACK")]
        packs: Vec<PathBuf>,

        /// Compare the solutions of sealed puzzles too
        #[arg(long)]
        unseal: bool,
    },

    /// Say what each technique of a walkthrough is worth: needed, or how much it saves, or avoidable; and whether that
    /// is what the setter meant to teach
    ///
    /// It is held against a solver who knows the rest: what pack.toml says is known, what the puzzles before have
    /// taught, and what else this one teaches. For a single puzzle file that is every other technique.
    #[command(after_help = examples!("teaches lantern-room" "teaches lantern-room first-light"))]
    Teaches(RawEach),

    /// Print the order of the puzzles, with a reason for each place
    ///
    /// Each walkthrough takes for granted what pack.toml says is known, and what the puzzles before it taught.
    /// Where pack.toml has an order of its own, the one that Galley would propose stands beside it.
    #[command(after_help = examples!(
        "order lantern-room" "order lantern-room --choose 12" "order lantern-room --move first-light=3"
    ))]
    Order {
        #[command(flatten)]
        target: RawTarget,

        /// Choose so many of the puzzles in the pack and in its pool, and put those in order
        #[arg(long, value_name = "N", value_parser = clap::value_parser!(u16).range(1..).map(usize::from))]
        choose: Option<usize>,

        /// Move a puzzle to another place, and say what gets worse and what gets better; may be given several
        /// times
        #[arg(long = "move", value_name = "ID=PLACE", conflicts_with = "choose")]
        moves: Vec<Move>,
    },

    /// Print the pack as a table: verdict, expected minutes, shelf and what each puzzle teaches
    #[command(after_help = examples!("table lantern-room" "table --json lantern-room"))]
    Table(RawTarget),

    #[command(after_help = examples!("season lantern-room" "season lantern-room --calendar season.ics"))]
    Season(RawSeason),

    /// Set puzzles to a brief: each has exactly one solution, turns on the techniques that it is to teach, and has
    /// nothing on its page to spare
    ///
    /// A technique is taught where the puzzle cannot be finished without it by a solver who knows all others
    /// that are known. Nothing to spare means that without any one given or clue it would no longer
    /// be such a puzzle; only what the look or the numbers ask for may be more. The same brief and seed always
    /// give the same puzzles. Exit code 1 says that fewer were found than were wanted, or
    /// none.
    ///
    /// With --vary no puzzle is set: each given and clue of one that is there is taken away, and each other added,
    /// and it is said what that does to its walkthrough.
    #[command(after_help = examples!(
        "make --teaches crust-reach --seed 7"
        "make --teaches last-in-sum --minutes 8..12 --givens ..6 --clues all --seed 7"
        "make --teaches crust-mates --count 5 --avoid lantern-room --out new-puzzles --seed 7"
        "make --gap lantern-room --count 3 --out new-puzzles --seed 7"
        "make --drill crust-reach --seed 7"
        "make --vary lantern-room/puzzles/first-light.toml"
        "make --seed 7 --title \"First light\" --setter Fern --out puzzles/first-light.toml"
    ))]
    Make(Box<RawMake>),

    /// Plan the recording of a walkthrough: what to say and how long it takes, what is new in it, what to ask viewers, and
    /// where they may stumble
    ///
    /// Your own notes on steps are read from the pack's folder `notes`; --write starts a file there. How fast you speak is
    /// learnt from the logs in `rehearsals`, once they hold twenty steps.
    #[command(after_help = examples!(
        "plan lantern-room first-light" "plan lantern-room first-light --write"
        "plan lantern-room first-light --sheet first-light.pdf"
        "plan lantern-room first-light --divide 6:00"
    ))]
    Plan(RawPlan),

    /// Make chapters, captions, a list of cuts and the text under a recording from the log that the stage wrote
    ///
    /// Pauses and entries that were undone are suggested as cuts. Once you have cut, give the list back with --cuts:
    /// chapters and captions are then those of what is left.
    #[command(allow_missing_positional = true, after_help = examples!(
        "recording lantern-room first-light rehearsals/first-light-1.json --out recording"
        "recording lantern-room first-light first-light-1.json --cuts recording/cuts.txt --out published"
    ))]
    Recording(RawRecording),

    /// Hold what was said in a recording against the walkthrough: which step is spoken when, what was reckoned wrongly, what
    /// was never spoken, long silences, misheard terms
    ///
    /// The recording is its captions: WebVTT, SubRip, or text with a time in brackets before each paragraph. Where it is not
    /// sure which step is spoken, it is said to be unsure. Exit code 1 says too that it sounds like another puzzle.
    #[command(after_help = examples!(
        "review first-light.vtt lantern-room first-light"
        "review first-light.srt lantern-room first-light --log rehearsals/first-light-1.json --out reviewed"
        "review talk.txt first-light.toml"
    ))]
    Review(RawReview),

    /// Draw a puzzle's board at any step of its walkthrough, a cover for its recording, or the whole walkthrough as a
    /// silent film
    #[command(allow_missing_positional = true, after_help = examples!(
        "picture lantern-room first-light --step 7 --out step-7.svg"
        "picture lantern-room first-light --cover --out cover.png"
        "picture lantern-room first-light --film --out film.png"
        "picture lantern-room first-light --frames 25 --width 1920 --out frames"
    ))]
    Picture(RawPicture),

    /// Open the desk: the pack in a browser on this machine, to be changed, solved and looked at
    ///
    /// The pack's folder stays the truth: what the desk changes it writes there, and what changes there the desk shows within a
    /// second. Test solves and the history of files are kept in the pack's folder .galley. Ctrl-C closes the desk.
    ///
    /// Without accounts whoever works on this machine is the desk's editor. With accounts every page asks who comes; editors
    /// can then invite testers and setters, and the desk may be reached from other machines through a proxy that speaks TLS.
    /// A password is asked for in the terminal, or read from standard input.
    #[command(after_help = examples!(
        "desk lantern-room" "desk lantern-room --port 4000 --no-browser" "desk lantern-room --add-account Aster"
        "desk lantern-room --port 4000 --public-url https://desk.example"
    ))]
    Desk(RawDesk),

    /// Do the whole job: check, explain, grade and order the pack, and write report, booklet, site, cue sheets
    /// and stages
    ///
    /// In the folder are then report.html for the editor, booklet.pdf to print, site/ to publish, and cue/ and
    /// stage/ to record from. Booklet and site are read back and every puzzle in them proved again before
    /// anything is written. Sealed puzzles, and those that are not proved or explained, are left out of
    /// them, and named.
    ///
    /// The new folder takes the place of the one before in a single move: it holds all of the old or all
    /// of the new. A folder with anything in it that Galley did not write is left alone.
    #[command(after_help = examples!(
        "press lantern-room" "press lantern-room --out proofs" "press lantern-room --issued 2026-12-01"
        "press lantern-room --booklet a4 --booklet letter+black+two"
    ))]
    Press {
        #[command(flatten)]
        target: RawTarget,

        /// The folder to write
        #[arg(long, value_name = "DIR", default_value = "out")]
        out: PathBuf,

        /// The day to print in the booklet, such as 2026-12-01 [default: none, so that equal packs give
        /// equal bytes on any day]
        #[arg(long, value_name = "DATE")]
        issued: Option<Day>,

        /// A form of the booklet, each in a file of its own: words joined by +, of a4 or letter, colour or
        /// black, one, two, four (puzzles a page) or large (large print), and walkthroughs (in an appendix);
        /// may be given several times [default: the pack's `booklets`, or a4]
        #[arg(long = "booklet", value_name = "FORM")]
        forms: Vec<Form>,

        /// Write nothing if a puzzle has changed since its setter approved it
        #[arg(long)]
        strict: bool,

        /// Print the cue sheets too, cue/PUZZLE.pdf beside cue/PUZZLE.html; takes a second or two for each puzzle
        #[arg(long)]
        print_cues: bool,

        #[command(flatten)]
        archive: RawArchive,
    },
}

#[derive(Args, Debug)]
pub(crate) struct RawArchive {
    /// An earlier pack: it is said which puzzles are the same as one in it; may be given several times
    #[arg(long, value_name = "DIR")]
    pub(crate) archive: Vec<PathBuf>,
}

#[derive(Args, Debug)]
pub(crate) struct RawTarget {
    /// The pack's folder, or one puzzle file
    pub(crate) pack: PathBuf,

    /// Show sealed puzzles as if they were not sealed
    #[arg(long)]
    pub(crate) unseal: bool,
}

#[derive(Args, Debug)]
pub(crate) struct RawKnows {
    /// Only these techniques, parted by commas, and no argument by cases; where they are not enough, it
    /// is said which single one more opens the puzzle
    #[arg(long, value_name = "TECHNIQUES", value_delimiter = ',')]
    #[arg(value_parser = PossibleValuesParser::new(techniques()), hide_possible_values = true)]
    pub(crate) knows: Option<Vec<String>>,
}

#[derive(Args, Debug)]
pub(crate) struct RawEach {
    #[command(flatten)]
    pub(crate) target: RawTarget,

    /// The id of one puzzle: its file's name without .toml [default: every puzzle of the pack]
    pub(crate) puzzle: Option<String>,
}

#[derive(Args, Debug)]
pub(crate) struct RawWhy {
    #[command(flatten)]
    pub(crate) target: RawTarget,

    /// The id of one puzzle: its file's name without .toml; left out after a puzzle file
    pub(crate) puzzle: Option<String>,

    /// The cell, such as r4c7: row 4, column 7
    pub(crate) cell: Option<String>,

    /// What is spoken at this time of a recording
    #[arg(long, value_name = "M:SS", conflicts_with_all = ["not", "crust", "filling"])]
    pub(crate) at: Option<Time>,

    /// The recording's captions: WebVTT, SubRip, or text with times in brackets
    #[arg(long, value_name = "FILE", requires = "at")]
    pub(crate) recording: Option<PathBuf>,

    /// Draw the board at that step, as SVG
    #[arg(long, value_name = "FILE", requires = "at")]
    pub(crate) picture: Option<PathBuf>,

    #[command(flatten)]
    pub(crate) heard: RawHeard,

    /// Why it is not this digit
    #[arg(long, value_name = "DIGIT", conflicts_with_all = ["crust", "filling"])]
    pub(crate) not: Option<String>,

    /// Why it is a crust: the 1 or the largest digit
    #[arg(long, conflicts_with = "filling")]
    pub(crate) crust: bool,

    /// Why it is filling: neither the 1 nor the largest digit
    #[arg(long)]
    pub(crate) filling: bool,
}

#[derive(Args, Debug)]
pub(crate) struct RawJudge {
    #[command(flatten)]
    pub(crate) target: RawTarget,

    /// The id of one puzzle: its file's name without .toml; left out after a puzzle file
    pub(crate) puzzle: Option<String>,

    /// The claim: "r4c7 is 5", "r4c7 is not 5", "r4c7 is a crust" or "r4c7 is filling"
    pub(crate) claim: String,

    /// The board: one character a cell, row by row, `.` or `0` for an empty one; the givens are always
    /// part of it [default: the givens alone]
    #[arg(long, value_name = "GRID")]
    pub(crate) at: Option<String>,

    /// The most steps in which the claim has to follow
    #[arg(long, value_name = "N", default_value = "12")]
    #[arg(value_parser = clap::value_parser!(u16).range(1..))]
    pub(crate) within: u16,
}

/// The techniques' names, easiest first.
fn techniques() -> Vec<&'static str> {
    TECHNIQUES.iter().map(|it| it.id().name()).collect()
}

#[cfg(test)]
mod tests {
    use clap::CommandFactory;

    use super::RawArgs;

    #[test]
    fn the_definition_is_sound() {
        RawArgs::command().debug_assert();
    }

    #[test]
    fn every_command_has_examples_and_exit_codes() {
        for command in RawArgs::command().get_subcommands() {
            let help = command.get_after_help().map(ToString::to_string).unwrap_or_default();
            let name = command.get_name();
            assert!(help.contains(&format!("galley {name} ")), "{name} has no example");
            assert!(help.contains("Exit codes"), "{name} says nothing of exit codes");
        }
    }
}
