//! The commands of this repository: `cargo x run`, `cargo x test`, `cargo x bench`.

mod bench;
mod debian;
mod page;
mod run;
mod step;
mod tally;
mod test;

use std::process::ExitCode;

const USAGE: &str = "\
Usage: cargo x WORD

  run    build everything, write the books of both demo houses into books/, and say how they stand
  open   the same build, then the page of a build file (open FILE; without one, of the folder one stands in)
  test   install what is missing (Debian, as root), then format, lints, all tests: what the checks on a server run
  bench  build for speed and time the commands and the engine";

/// What the command line asks for.
#[derive(Debug, PartialEq, Eq)]
enum Word {
    Run,
    Open(Option<String>),
    Test,
    Bench,
    Help,
}

fn word(arguments: &[String]) -> Result<Word, String> {
    match arguments {
        [] => Err("Say what to do.".to_owned()),
        [one] => match one.as_str() {
            "run" => Ok(Word::Run),
            "open" => Ok(Word::Open(None)),
            "test" => Ok(Word::Test),
            "bench" => Ok(Word::Bench),
            "help" | "--help" | "-h" => Ok(Word::Help),
            unknown => Err(format!("There is no \"{unknown}\" here.")),
        },
        [word, file] if word == "open" => Ok(Word::Open(Some(file.clone()))),
        [_, more, ..] => Err(format!("\"{more}\" is one word too many.")),
    }
}

fn main() -> ExitCode {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let done = match word(&arguments) {
        Ok(Word::Run) => run::run(),
        Ok(Word::Open(file)) => run::open(file.as_deref()),
        Ok(Word::Test) => test::test(),
        Ok(Word::Bench) => bench::bench(),
        Ok(Word::Help) => {
            println!("{USAGE}");
            Ok(())
        }
        Err(fault) => {
            eprintln!("{fault}\n\n{USAGE}");
            return ExitCode::from(2);
        }
    };
    match done {
        Ok(()) => ExitCode::SUCCESS,
        Err(fault) => {
            eprintln!("{fault}");
            ExitCode::FAILURE
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn asked(words: &[&str]) -> Result<Word, String> {
        word(&words.iter().map(|&word| word.to_owned()).collect::<Vec<_>>())
    }

    #[test]
    fn each_word_is_known() {
        assert_eq!(asked(&["run"]), Ok(Word::Run));
        assert_eq!(asked(&["open", "hut.loam.toml"]), Ok(Word::Open(Some("hut.loam.toml".to_owned()))));
        assert_eq!(asked(&["open"]), Ok(Word::Open(None)));
        assert_eq!(asked(&["test"]), Ok(Word::Test));
        assert_eq!(asked(&["bench"]), Ok(Word::Bench));
        assert_eq!(asked(&["--help"]), Ok(Word::Help));
    }

    #[test]
    fn anything_else_is_refused_in_words() {
        assert_eq!(asked(&[]), Err("Say what to do.".to_owned()));
        assert_eq!(asked(&["walk"]), Err("There is no \"walk\" here.".to_owned()));
        assert_eq!(asked(&["run", "fast"]), Err("\"fast\" is one word too many.".to_owned()));
    }
}
