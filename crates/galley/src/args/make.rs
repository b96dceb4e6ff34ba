//! What is typed after `galley make`.

use std::path::PathBuf;
use std::str::FromStr;

use clap::builder::PossibleValuesParser;
use clap::{Args, ValueEnum};

use super::techniques;
use crate::range::Range;

#[derive(Args, Debug)]
pub(crate) struct RawMake {
    /// The number that everything random comes from
    #[arg(long, value_name = "N", required_unless_present = "vary")]
    pub(crate) seed: Option<u64>,

    /// The same puzzle a little easier or harder: each change of one given or clue, and what it does to the
    /// walkthrough; in a pack for a solver who knows what the pack teaches before it
    #[arg(long, value_name = "PUZZLE")]
    #[arg(conflicts_with_all = ["seed", "teaches", "minutes", "givens", "clues", "classic", "spare_allowed", "avoid"])]
    #[arg(conflicts_with_all = ["title", "out"])]
    pub(crate) vary: Option<PathBuf>,

    /// A puzzle for the easiest technique that this pack never teaches, or teaches and never practises (--count: for so
    /// many), for a solver who knows what the pack teaches; it differs from all of the pack
    #[arg(long, value_name = "PACK", conflicts_with_all = ["vary", "drill", "teaches", "knows", "hardest"])]
    pub(crate) gap: Option<PathBuf>,

    /// Exercises smaller than a puzzle, of one line or box or the few it needs, each with one answer that this
    /// technique proves and nothing easier does; with a key
    #[arg(long, value_name = "TECHNIQUE", value_parser = PossibleValuesParser::new(techniques()))]
    #[arg(hide_possible_values = true)]
    #[arg(conflicts_with_all = ["vary", "teaches", "minutes", "spare_allowed", "avoid", "title", "out"])]
    pub(crate) drill: Option<String>,

    /// The techniques to teach, parted by commas: the puzzle cannot be finished without any of them
    #[arg(long, value_name = "TECHNIQUES", value_delimiter = ',', help_heading = "Brief")]
    #[arg(value_parser = PossibleValuesParser::new(techniques()), hide_possible_values = true)]
    pub(crate) teaches: Vec<String>,

    /// The techniques that are enough, parted by commas; those that it teaches are known besides [default: the
    /// first techniques of all and everything easier than what it teaches; all, if it teaches nothing in
    /// particular]
    #[arg(long, value_name = "TECHNIQUES", value_delimiter = ',', help_heading = "Brief")]
    #[arg(value_parser = PossibleValuesParser::new(techniques()), hide_possible_values = true)]
    pub(crate) knows: Option<Vec<String>>,

    /// This technique and all that are easier are enough: a short way to say --knows
    #[arg(long, value_name = "TECHNIQUE", conflicts_with = "knows", help_heading = "Brief")]
    #[arg(value_parser = PossibleValuesParser::new(techniques()), hide_possible_values = true)]
    pub(crate) hardest: Option<String>,

    /// How long it takes a regular who knows those, at the median, such as 8..12
    #[arg(long, value_name = "RANGE", help_heading = "Brief")]
    pub(crate) minutes: Option<Range>,

    /// How many givens, such as ..6 [default: up to 3 in 10 cells, or half of them with --classic]
    #[arg(long, value_name = "RANGE", help_heading = "Brief")]
    pub(crate) givens: Option<Range>,

    /// Which clues: all, symmetric (a line has one if the line opposite has), few (spared before givens), or
    /// a range [default: those that are needed]
    #[arg(long, value_name = "CLUES", conflicts_with = "classic", help_heading = "Brief")]
    pub(crate) clues: Option<RawClues>,

    /// Givens only, no sandwich clues
    #[arg(long, help_heading = "Brief")]
    pub(crate) classic: bool,

    /// The size of the board, from 4x4 to 16x16; boxes are as square as can be
    #[arg(long, value_name = "SIZE", default_value = "9x9", help_heading = "Brief")]
    pub(crate) size: String,

    /// Where the givens are: anywhere, or in places that look the same after a half turn
    #[arg(long, value_name = "LOOK", default_value = "any", help_heading = "Brief")]
    pub(crate) look: RawLook,

    /// Givens and clues may stay that are needed by those who know no more than that, and not for the one solution;
    /// it is said how many [default: nothing is to spare but what the look or a range asks for]
    #[arg(long, help_heading = "Brief")]
    pub(crate) spare_allowed: bool,

    /// How many puzzles, no two of them the same from any side [default: 1, or 3 with --drill]
    #[arg(long, value_name = "N", help_heading = "Brief")]
    #[arg(value_parser = clap::value_parser!(u16).range(1..=1000))]
    pub(crate) count: Option<u16>,

    /// A pack or puzzle file that no puzzle may be the same as; may be given several times
    #[arg(long, value_name = "PACK", help_heading = "Brief")]
    pub(crate) avoid: Vec<PathBuf>,

    /// How many random solutions are tried before it is given up
    #[arg(long, value_name = "N", default_value = "1000", help_heading = "Brief")]
    #[arg(value_parser = clap::value_parser!(u64).range(1..=1_000_000))]
    pub(crate) tries: u64,

    /// The puzzle's title [default: the seed]; with --count a number follows it
    #[arg(long, help_heading = "Files")]
    pub(crate) title: Option<String>,

    /// The puzzle's setter
    #[arg(long, default_value = "Galley", help_heading = "Files")]
    pub(crate) setter: String,

    /// The file to write, such as first-light.toml, or a folder for several; a file that exists is never overwritten
    /// [default: standard output]
    #[arg(long, value_name = "PATH", help_heading = "Files")]
    pub(crate) out: Option<PathBuf>,
}

/// Which clues are wanted.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) enum RawClues {
    All,
    Symmetric,
    Few,
    Within(Range),
}

impl FromStr for RawClues {
    type Err = String;

    fn from_str(text: &str) -> Result<RawClues, String> {
        match text {
            "all" => Ok(RawClues::All),
            "symmetric" => Ok(RawClues::Symmetric),
            "few" => Ok(RawClues::Few),
            // Words that are none of these were hardly meant as a range.
            it if it.starts_with(char::is_alphabetic) => {
                Err("write all, symmetric, few or a range such as 8..12".to_owned())
            }
            it => it.parse().map(RawClues::Within),
        }
    }
}

/// Where givens may be.
#[derive(Clone, Copy, PartialEq, Eq, Debug, ValueEnum)]
pub(crate) enum RawLook {
    Any,
    Symmetric,
}
