//! Lanes: threads change no digit, the newest inputs win, what is kept is of its own inputs alone.

use std::sync::mpsc;

use engine::study::Told;
use serde_json::{Value, json};

use super::*;

/// Adds up shares that no two orders add to the same last digit; a piece waits for as long as it is told to.
#[derive(Clone, Debug)]
struct Sum {
    of: usize,
    wait: Duration,
    /// The piece at which it fails.
    fails: Option<usize>,
}

impl Study for Sum {
    type Part = Vec<f64>;
    type Found = f64;

    fn pieces(&self) -> usize {
        self.of
    }

    fn part(&self, range: Range<usize>, told: &mut Told<'_>) -> Option<Vec<f64>> {
        let of = range.len();
        let one = |(done, piece): (usize, usize)| {
            std::thread::sleep(self.wait);
            assert_ne!(self.fails, Some(piece), "this piece fails");
            told(Progress { done, of }).is_continue().then(|| 1.0 / (piece as f64 + 0.7))
        };
        range.enumerate().map(one).collect()
    }

    fn join(&self, parts: Vec<Vec<f64>>) -> f64 {
        parts.into_iter().flatten().sum()
    }

    fn digest(&self) -> Digest {
        Digest::of(1, &self.of)
    }

    fn kept(found: &f64) -> Value {
        json!([found])
    }

    fn read(&self, kept: &Value) -> Option<f64> {
        kept[0].as_f64()
    }
}

impl Laned for Sum {
    const NAME: &'static str = "sum";
    const WORDS: &'static str = "Adds up";
}

fn quick(of: usize) -> Arc<Sum> {
    Arc::new(Sum { of, wait: Duration::ZERO, fails: None })
}

fn slow(of: usize) -> Arc<Sum> {
    Arc::new(Sum { of, wait: Duration::from_millis(5), fails: None })
}

fn folder(name: &str) -> PathBuf {
    let folder = std::env::temp_dir().join(format!("loamwright-lanes-{name}-{}", std::process::id()));
    let _ = fs::remove_dir_all(&folder);
    folder
}

/// A lane's words, as they come.
fn listener() -> (impl Fn(Heard) + Send + Sync + 'static, mpsc::Receiver<Heard>) {
    let (sender, receiver) = mpsc::channel();
    let sender = Mutex::new(sender);
    let hear = move |heard| {
        let _ = held(&sender).send(heard);
    };
    (hear, receiver)
}

/// Whether the lane says that it ended, before long.
fn ended(receiver: &mpsc::Receiver<Heard>) -> bool {
    let words = std::iter::from_fn(|| receiver.recv_timeout(Duration::from_secs(20)).ok());
    words.into_iter().any(|heard| heard == Heard::Ended)
}

#[test]
fn the_number_of_threads_changes_no_digit() {
    let study = quick(1000);
    let found: Vec<u64> =
        [1, 2, 3, 7, 64].map(|threads| run(study.as_ref(), threads, &|_| true).unwrap().to_bits()).into();
    assert!(found.iter().all(|bits| *bits == found[0]), "{found:?}");
    assert_eq!(run(quick(0).as_ref(), 2, &|_| true), Some(0.0));
}

#[test]
fn what_is_told_grows_and_a_no_ends_the_run() {
    let shares = Mutex::new(Vec::new());
    let found = run(slow(200).as_ref(), 2, &|share| {
        held(&shares).push(share);
        held(&shares).len() < 3
    });
    let shares = shares.into_inner().unwrap();
    assert_eq!((found, shares.len()), (None, 3));
    assert!(shares.windows(2).all(|pair| pair[0] <= pair[1]) && shares[2] < 1.0, "{shares:?}");
}

#[test]
fn the_newest_inputs_win_and_the_last_result_stays_until_another_comes() {
    let (lane, (hear, heard)) = (Lane::default(), listener());
    let first = quick(10);
    lane.start(Arc::clone(&first), None, hear);
    assert!(ended(&heard));
    let (given_up, newest) = (slow(400), slow(20));
    let ((hear_first, heard_first), (hear, heard)) = (listener(), listener());
    lane.start(Arc::clone(&given_up), None, hear_first);
    assert!(lane.is_overtaken_by(&newest) && !lane.is_overtaken_by(&given_up));
    let stands = lane.stands(&newest, None);
    assert!(stands.share.is_some() && stands.last.is_some_and(|(_, is_of_this)| !is_of_this));
    lane.start(Arc::clone(&newest), None, hear);
    assert!(ended(&heard));
    let stands = lane.stands(&newest, None);
    let (last, is_of_this) = stands.last.unwrap();
    assert!(is_of_this && stands.share.is_none());
    assert_eq!(Some(*last.found), run(newest.as_ref(), 1, &|_| true));
    assert!(heard_first.iter().all(|heard| !matches!(heard, Heard::Ended)), "what was given up says no more");
}

#[test]
fn what_is_stopped_brings_nothing_and_can_be_begun_again() {
    let (lane, study, (hear, heard)) = (Lane::default(), slow(60), listener());
    lane.start(Arc::clone(&study), None, hear);
    assert!(lane.stop() && !lane.stop());
    assert!(heard.iter().all(|heard| !matches!(heard, Heard::Ended)));
    let stands = lane.stands(&study, None);
    assert!(stands.stopped && stands.share.is_none() && stands.last.is_none());
    let (hear, heard) = listener();
    lane.start(Arc::clone(&study), None, hear);
    assert!(ended(&heard) && !lane.stands(&study, None).stopped);
}

#[test]
fn a_study_that_fails_ends_its_lane_and_can_be_begun_again() {
    let (lane, (hear, heard)) = (Lane::default(), listener());
    let fails = Arc::new(Sum { fails: Some(17), ..(*quick(30)).clone() });
    lane.start(Arc::clone(&fails), None, hear);
    assert!(ended(&heard));
    let stands = lane.stands(&fails, None);
    assert!(stands.stopped && stands.share.is_none() && stands.last.is_none());
    let (hear, heard) = listener();
    lane.start(quick(30), None, hear);
    assert!(ended(&heard));
    let stands = lane.stands(&fails, None);
    assert!(!stands.stopped && stands.last.is_some());
}

#[test]
fn what_was_found_is_kept_for_its_own_inputs_and_the_oldest_go() {
    let folder = folder("kept");
    let shelf = Shelf::of(&folder.join("house.loam.toml"));
    let (lane, study, (hear, heard)) = (Lane::default(), quick(30), listener());
    lane.start(Arc::clone(&study), Some(shelf.clone()), hear);
    assert!(ended(&heard));
    assert!(folder.join("house.loam/studies").is_dir());
    let found = run(study.as_ref(), 1, &|_| true);
    assert_eq!(shelf.kept(study.as_ref()), found);
    assert_eq!(shelf.kept(quick(31).as_ref()), None, "never that of other inputs");
    let later = Lane::default().stands(study.as_ref(), Some(&shelf));
    assert!(later.last.is_some_and(|(last, is_of_this)| is_of_this && Some(*last.found) == found));
    fs::write(shelf.file::<Sum>(study.digest()), "[").unwrap();
    assert_eq!(shelf.kept(study.as_ref()), None, "a file cut short is none");
    for of in 100..120 {
        shelf.keep(quick(of).as_ref(), &1.0);
    }
    assert_eq!(fs::read_dir(folder.join("house.loam/studies")).unwrap().count(), KEPT);
    fs::remove_dir_all(folder).unwrap();
}
