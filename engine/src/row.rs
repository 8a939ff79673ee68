//! The one form of every answer that anyone can see, and the list that a walk round the house fills.

use std::sync::Arc;

use crate::known::{Known, Origin};
use crate::reason::{Answer, Input, Reason, Words};
use crate::units::{Fineness, Quantity, System, Volume};

/// One value with its name, origin and reason. Page, book, exports and drawings all show this.
#[derive(Clone, Debug, PartialEq)]
pub struct Row {
    /// Its key in the build file and a noun, such as `openings.south-window.area`.
    pub path: String,
    /// What it is, in a builder's words.
    pub title: String,
    /// The value.
    pub quantity: Quantity,
    /// The weakest origin among what it was computed from and its own.
    pub origin: Origin,
    /// Where the value itself comes from, when it was given or assumed; none when it was computed.
    pub own: Option<Origin>,
    /// Why it is what it is.
    pub reason: Reason,
}

impl Row {
    /// Whether the value stands in for one that the builder did not write.
    #[must_use]
    pub fn is_assumed(&self) -> bool {
        self.own.is_some_and(|own| own < Origin::Given)
    }

    /// Where it comes from in words; a computed value that leans on anything assumed says so.
    #[must_use]
    pub fn origin_in_words(&self) -> String {
        match self.own {
            Some(_) if self.is_assumed() => format!("assumed, {}", self.origin),
            Some(_) => self.origin.to_string(),
            None if self.origin == Origin::Given => "computed".to_owned(),
            None => format!("computed, leans on {}", self.origin.in_words().trim_start_matches("from ")),
        }
    }

    /// The value as a reader of `system` wants it: lengths to 1 mm or 1/16 in, under 2 mm to two digits, the rest to honest digits; sizes
    /// of sieves and grains always in millimetres, since standards of both systems name them so. Of a heap less than nothing is short.
    #[must_use]
    pub fn shown(&self, system: System) -> String {
        if let Quantity::Volume(left) = self.quantity
            && left < Volume::ZERO
            && self.path.starts_with("balance.")
        {
            return format!("{} short", shown((-left).into(), system));
        }
        if matches!(self.quantity, Quantity::Pressure(_)) && self.path.starts_with("tests.") {
            return self.quantity.shown(system, Fineness::Strength);
        }
        if matches!(self.quantity, Quantity::Length(_)) && self.path.starts_with("tests.gradings.") {
            return shown(self.quantity, System::Metric);
        }
        shown(self.quantity, system)
    }
}

/// A quantity as tables and checks print it.
#[must_use]
pub fn shown(quantity: Quantity, system: System) -> String {
    let fineness = if matches!(quantity, Quantity::Length(_)) { Fineness::Row } else { Fineness::Figure };
    quantity.shown(system, fineness)
}

/// The rows of one house in the order in which they were found, each path once.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Rows {
    list: Vec<Row>,
    /// Places in the list, counted from 1, each at the digest of its path or the next place here that is free (0). Its length is
    /// a power of two, and half of it stays free.
    index: Vec<u32>,
    /// Of each row the places of the assumed values that it leans on, weaker than a table; rows that lean on the same share them.
    leans: Vec<Arc<[u32]>>,
    /// The first bytes of each path: rules look through all rows, and few of those begin as they do.
    fronts: Vec<Front>,
    /// Path and title of what a walk could not measure, since something that it needs is not written.
    unknown: Vec<(String, String)>,
}

impl Rows {
    /// Notes a given or assumed value and hands it back.
    pub fn known<T: Copy + Into<Quantity>>(&mut self, title: impl Into<String>, known: &Known<T>) -> T {
        let inputs = known
            .follows
            .iter()
            .filter_map(|path| self.find(path))
            .map(|row| Input::new(row.title.clone(), row.quantity, row.path.as_str()));
        let why = match known.line {
            Some(line) => format!("Written in the build file, line {line}."),
            None => format!("Assumed: {}.", known.why),
        };
        let reason = Reason::in_words(Words { title: why, ..Words::default() }, inputs.collect());
        self.push(known.path.clone(), title.into(), known.value.into(), Some(known.origin), reason);
        known.value
    }

    /// Notes a computed value and hands it back; its origin is the weakest among its inputs'.
    pub fn add<T: Copy + Into<Quantity>>(
        &mut self,
        path: impl Into<String>,
        title: impl Into<String>,
        answer: Answer<T>,
    ) -> T {
        self.push(path.into(), title.into(), answer.value.into(), None, answer.reason);
        answer.value
    }

    fn push(&mut self, path: String, title: String, quantity: Quantity, own: Option<Origin>, reason: Reason) {
        let is_weak = own.is_some_and(|own| own < Origin::Table);
        let here: &[u32] = if is_weak { &[u32::try_from(self.list.len()).unwrap_or(0)] } else { &[] };
        let (mut origin, mut leans) = (own, Arc::from(here));
        for place in reason.inputs.iter().filter_map(|input| self.place(&input.path).ok()) {
            origin = origin.into_iter().chain(Some(self.list[place].origin)).min();
            leans = both(leans, &self.leans[place]);
        }
        let origin = origin.unwrap_or(Origin::Judgement);
        self.leans.push(leans);
        self.fronts.push(front(&path));
        if 2 * (self.list.len() + 1) > self.index.len() {
            self.index = vec![0; (2 * self.index.len()).max(1024)];
            for place in 0..self.list.len() {
                self.note(place);
            }
        }
        self.list.push(Row { path, title, quantity, origin, own, reason });
        self.note(self.list.len() - 1);
    }

    /// Notes a place of the list under its path; the first of two rows of one path stays.
    fn note(&mut self, place: usize) {
        if let Err(free) = self.place(&self.list[place].path) {
            self.index[free] = u32::try_from(place + 1).unwrap_or(0);
        }
    }

    /// Notes what belongs to the house and cannot be measured, since something that it needs is not written.
    pub fn not_known(&mut self, path: impl Into<String>, title: impl Into<String>) {
        self.unknown.push((path.into(), title.into()));
    }

    /// Path and title of what could not be measured, where the path matches a pattern in which `*` stands for one key.
    pub fn unknown<'a>(&'a self, pattern: &'a str) -> impl Iterator<Item = (&'a str, &'a str)> {
        let unknown = self.unknown.iter().filter(move |(path, _)| matches(pattern, path));
        unknown.map(|(path, title)| (path.as_str(), title.as_str()))
    }

    /// The row of that path.
    #[must_use]
    pub fn find(&self, path: &str) -> Option<&Row> {
        self.place(path).ok().map(|place| &self.list[place])
    }

    /// The place in the list of that path, or the free place of the index where it would be noted.
    fn place(&self, path: &str) -> Result<usize, usize> {
        let last = self.index.len().wrapping_sub(1);
        let mut at = digest(path) as usize & last;
        while let Some(place) = self.index.get(at).and_then(|place| (*place as usize).checked_sub(1)) {
            if self.list[place].path == path {
                return Ok(place);
            }
            at = (at + 1) & last;
        }
        Err(at)
    }

    /// The value of the row of that path, when there is one and it is of that kind.
    #[must_use]
    pub fn value<T: TryFrom<Quantity>>(&self, path: &str) -> Option<T> {
        self.find(path).and_then(|row| T::try_from(row.quantity).ok())
    }

    /// Title, path and value of the rows of those paths, as far as there are such rows of that kind: the parts of a sum.
    pub fn parts<T: TryFrom<Quantity>>(&self, paths: impl IntoIterator<Item = String>) -> Vec<(String, String, T)> {
        let found = paths.into_iter().filter_map(|path| self.find(&path));
        found.filter_map(|row| Some((row.title.clone(), row.path.clone(), T::try_from(row.quantity).ok()?))).collect()
    }

    /// Every row in the order in which it was found.
    pub fn iter(&self) -> impl Iterator<Item = &Row> {
        self.list.iter()
    }

    /// The rows whose paths match a pattern in which `*` stands for one key.
    pub fn matching<'a>(&'a self, pattern: &'a str) -> impl Iterator<Item = &'a Row> {
        let one = if pattern.contains('*') { None } else { Some(self.find(pattern)) };
        let many = if one.is_none() { &self.list[..] } else { &[] };
        let fixed = front(pattern.split('*').next().unwrap_or(""));
        let alike = move |own: &Front| own.iter().zip(fixed).all(|(own, wanted)| wanted == 0 || *own == wanted);
        let many = many.iter().zip(&self.fronts).filter(move |(_, own)| alike(own)).map(|(row, _)| row);
        let many = many.filter(move |row| matches(pattern, &row.path));
        one.flatten().into_iter().chain(many)
    }

    /// The assumed values, weaker than a table, that the row of a path was computed from through all reasons, in the order in which
    /// they were found; itself among them.
    pub fn leaning(&self, path: &str) -> impl Iterator<Item = &Row> {
        let leans = self.place(path).into_iter().flat_map(|place| self.leans[place].iter());
        leans.map(|place| &self.list[*place as usize])
    }
}

/// The first bytes of a path, as many as tell most walks apart; zeros where it is shorter.
type Front = [u8; 16];

fn front(path: &str) -> Front {
    let mut front = Front::default();
    for (own, byte) in front.iter_mut().zip(path.bytes()) {
        *own = byte;
    }
    front
}

/// All places of two ascending lists, in ascending order, each once.
fn both(one: Arc<[u32]>, other: &Arc<[u32]>) -> Arc<[u32]> {
    if Arc::ptr_eq(&one, other) || has_all(&one, other) {
        return one;
    }
    if has_all(other, &one) {
        return Arc::clone(other);
    }
    let mut all: Vec<u32> = one.iter().chain(other.iter()).copied().collect();
    all.sort_unstable();
    all.dedup();
    all.into()
}

/// Whether one ascending list has all of another.
fn has_all(one: &[u32], other: &[u32]) -> bool {
    let mut rest = one.iter();
    other.len() <= one.len() && other.iter().all(|wanted| rest.by_ref().find(|place| *place >= wanted) == Some(wanted))
}

/// A digest of a path, eight bytes at a time: each is mixed in as FNV-1a does with one (Fowler, Noll and Vo 1991, from memory),
/// by an odd number without pattern, the golden section of 2⁶⁴, and folded to its lower half.
fn digest(path: &str) -> u64 {
    let mixed = |digest: u64, word: u64| {
        let mixed = (digest ^ word).wrapping_mul(0x9e37_79b9_7f4a_7c15);
        mixed ^ (mixed >> 32)
    };
    let (eights, rest) = path.as_bytes().as_chunks::<8>();
    let digest = eights.iter().fold(path.len() as u64, |digest, eight| mixed(digest, u64::from_le_bytes(*eight)));
    mixed(digest, rest.iter().fold(0, |word, byte| (word << 8) | u64::from(*byte)))
}

fn matches(pattern: &str, path: &str) -> bool {
    let (mut pattern, mut path) = (pattern.split('.'), path.split('.'));
    loop {
        match (pattern.next(), path.next()) {
            (None, None) => return true,
            (Some(wanted), Some(key)) if wanted == "*" || wanted == key => {}
            _ => return false,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::Length;

    fn rows() -> Rows {
        let mut rows = Rows::default();
        let length = |path: &str, origin| Known::assumed(Length::m(2.0), path, origin, "a test");
        rows.known("a", &length("a", Origin::Given));
        rows.known("b", &length("b", Origin::Judgement));
        rows.known("c", &length("c", Origin::Table));
        let input = |path: &str| Input::new("", Length::m(2.0).into(), path);
        let sum = |paths: [&str; 2]| Answer {
            value: Length::m(4.0),
            reason: Reason::of_docs(&[], paths.map(input).to_vec()),
        };
        rows.add("a-and-c", "", sum(["a", "c"]));
        rows.add("all", "", sum(["a-and-c", "b"]));
        rows
    }

    #[test]
    fn a_heap_that_runs_out_is_said_to_be_short() {
        let mut rows = Rows::default();
        let volume = |path: &str, m3| Known::assumed(Volume::m3(m3), path, Origin::Given, "a test");
        rows.known("left", &volume("balance.topsoil.round.left", -0.5));
        rows.known("left", &volume("balance.subsoil.round.left", 0.5));
        let shown: Vec<_> = rows.iter().map(|row| row.shown(System::Metric)).collect();
        assert_eq!(shown, ["0.500 m³ short", "0.500 m³"]);
    }

    #[test]
    fn a_computed_row_is_as_weak_as_its_weakest_input() {
        assert_eq!(rows().find("a-and-c").unwrap().origin, Origin::Table);
        assert_eq!(rows().find("all").unwrap().origin, Origin::Judgement);
    }

    #[test]
    fn a_row_leans_through_other_rows_on_what_is_weaker_than_a_table() {
        let mut rows = rows();
        let leaning = |rows: &Rows, path| rows.leaning(path).map(|row| row.path.clone()).collect::<Vec<_>>();
        assert_eq!(leaning(&rows, "all"), ["b"]);
        assert_eq!(leaning(&rows, "b"), ["b"]);
        for path in ["a-and-c", "a", "c", "nothing"] {
            assert_eq!(leaning(&rows, path), [""; 0], "{path}");
        }
        rows.known("d", &Known::assumed(Length::m(2.0), "d", Origin::CommonPractice, "a test"));
        let inputs = ["d", "all", "b"].map(|path| Input::new("", Length::m(2.0).into(), path)).to_vec();
        rows.add("more", "", Answer { value: Length::m(6.0), reason: Reason::of_docs(&[], inputs) });
        assert_eq!(leaning(&rows, "more"), ["b", "d"]);
    }

    #[test]
    fn a_value_that_follows_a_given_one_is_assumed_and_names_it() {
        let mut rows = rows();
        let follower = Known::assumed(Length::m(2.0), "d", Origin::CommonPractice, "as a").following("a");
        rows.known("d", &follower);
        let row = rows.find("d").unwrap();
        assert!(row.is_assumed() && row.origin == Origin::CommonPractice);
        assert_eq!(row.reason.inputs.iter().map(|input| input.path.as_str()).collect::<Vec<_>>(), ["a"]);
    }

    #[test]
    fn of_many_rows_each_is_found_and_the_first_of_two_of_one_path_stays() {
        let mut rows = Rows::default();
        assert_eq!(rows.find("row-0"), None);
        for number in 0..3000 {
            let path = format!("row-{}", number % 2999);
            rows.known("", &Known::assumed(Length::m(f64::from(number)), path, Origin::Given, "a test"));
        }
        assert_eq!(rows.iter().count(), 3000);
        for number in 0..2999 {
            assert_eq!(rows.value::<Length>(&format!("row-{number}")), Some(Length::m(f64::from(number))));
        }
        assert_eq!(rows.find("row-2999"), None);
    }

    #[test]
    fn a_star_stands_for_exactly_one_key() {
        assert!(matches("openings.*.width", "openings.door.width"));
        assert!(!matches("openings.*.width", "openings.width"));
        assert!(!matches("openings.*", "openings.door.width"));
    }
}
