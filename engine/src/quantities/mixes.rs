//! Rows of tried mixes: what was found of each, the surface through them, the recipe that they choose, the mix to try next.

use super::called::Called;
use crate::earth::mixture::{self, Choice, Fit};
use crate::house::{Earth, House, MixSurface, Mixes, Tried, Wish};
use crate::row::Rows;
use crate::units::Quantity;

pub(super) fn walk(house: &House, rows: &mut Rows) {
    for mixes in &house.mixes {
        if let Some(earth) = &house.earth {
            Series { mixes, earth, name: words(&mixes.name) }.walk(rows);
        }
    }
}

fn words(name: &str) -> String {
    name.replace('-', " ")
}

/// Mixes that were tried for one recipe.
struct Series<'a> {
    mixes: &'a Mixes,
    earth: &'a Earth,
    name: String,
}

/// Title, path and value of what a row is computed from.
type Parts = Vec<(String, String, Quantity)>;

impl Series<'_> {
    fn path(&self, noun: &str) -> String {
        self.mixes.path(noun)
    }

    fn title(&self, words: &str) -> String {
        format!("{words} the mixes {}", self.name)
    }

    fn walk(&self, rows: &mut Rows) {
        self.written(rows);
        for tried in &self.mixes.tried {
            self.shares(tried, rows);
        }
        let is_tried = !self.mixes.tried.is_empty();
        for (place, wish) in self.mixes.wishes.iter().enumerate().filter(|_| is_tried) {
            self.surface(place, wish, rows);
        }
        self.batch(rows);
        if is_tried {
            self.measurable(rows);
        }
        match (&self.mixes.found.choice, self.mixes.found.best()) {
            (Ok(choice), Some(best)) => self.chosen(choice, best, rows),
            (Err(why), _) => {
                let words = format!("recipe, which is not chosen yet ({}), of", why.in_words());
                rows.not_known(self.path("off"), self.title(&words));
            }
            (Ok(_), None) => {}
        }
    }

    fn called(&self) -> Called<'_> {
        Called { names: self.mixes.parts.iter().map(|(name, _)| name.as_str()).collect(), step: self.mixes.step.value }
    }

    /// What the builder wrote.
    fn written(&self, rows: &mut Rows) {
        if let Some(day) = &self.mixes.day {
            rows.known(self.title("day on which one measured"), day);
        }
        rows.known(self.title("least part of a bucket that is measured in"), &self.mixes.step);
        for (ingredient, [low, high]) in &self.mixes.parts {
            let ingredient = words(ingredient);
            rows.known(self.title(&format!("fewest buckets of {ingredient} in a batch, by")), low);
            rows.known(self.title(&format!("most buckets of {ingredient} in a batch, by")), high);
        }
        for wish in &self.mixes.wishes {
            let what = words(&wish.name);
            rows.known(self.title(&format!("{what} that is wanted of")), &wish.value);
            for (side, word) in wish.useless.iter().zip(["below", "above"]) {
                if let Some(side) = side {
                    rows.known(self.title(&format!("{what} {word} which a mix is useless, of")), side);
                }
            }
        }
    }

    /// What one mix was made of and what was found of it.
    fn shares(&self, tried: &Tried, rows: &mut Rows) {
        let of = format!("mix {} of {}", words(&tried.name), self.name);
        let count = tried.buckets.len();
        self.called().made_of(&tried.buckets, (count, &of), |own| self.share_path(tried, own), rows);
        for (wish, found) in self.mixes.wishes.iter().zip(&tried.found) {
            if let Some(found) = found {
                rows.known(format!("{} of {of}", words(&wish.name)), found);
            }
        }
    }

    fn share_path(&self, tried: &Tried, ingredient: &str) -> String {
        self.path(&format!("tried.{}.share.{ingredient}", tried.name))
    }

    /// The shares of tried mixes, as inputs.
    fn shares_of<'t>(&self, runs: impl Iterator<Item = &'t Tried>) -> Parts {
        let own = runs.flat_map(|tried| {
            let shares = tried.shares().into_iter();
            let parts = self.mixes.parts.iter().zip(&tried.buckets).zip(shares);
            parts.filter_map(move |(((ingredient, _), own), share)| {
                own.as_ref()?;
                let share = crate::units::Ratio::fraction(share).into();
                Some((format!("{ingredient} in {}", tried.name), self.share_path(tried, ingredient), share))
            })
        });
        own.collect()
    }

    /// What was found of a wish in each mix, and what the mixes were made of.
    fn runs(&self, place: usize, surface: &MixSurface) -> Parts {
        let tried = || surface.runs.iter().map(|run| &self.mixes.tried[*run]);
        let found = tried().filter_map(|tried| {
            let found = tried.found[place].as_ref()?;
            Some((format!("found of {}", tried.name), found.path.clone(), found.value))
        });
        found.chain(self.shares_of(tried())).collect()
    }

    /// The surface through what was found of a wish.
    fn surface(&self, place: usize, wish: &Wish, rows: &mut Rows) {
        let surface = &self.mixes.found.surfaces[place];
        let what = words(&wish.name);
        let path = |noun: &str| self.path(&format!("fit.{}.{noun}", wish.name));
        let parts = self.runs(place, surface);
        let of = |words: &str| self.title(&format!("{words} {what}, by"));
        let runs = mixture::measured(surface.runs.len()).of_parts(parts.clone());
        let runs = rows.add(path("runs"), of("mixes that were measured for"), runs);
        let distinct = mixture::distinct_mixes(surface.distinct).of_parts(parts.clone());
        let distinct = rows.add(path("distinct"), of("distinct mixes that were measured for"), distinct);
        let fit = match &surface.fit {
            Ok(fit) => fit,
            Err(why) => {
                let words = format!("surface through what was found ({}) of {what}, by", why.in_words());
                return rows.not_known(path("terms"), self.title(&words));
            }
        };
        let terms = mixture::terms_carried(fit.terms.count()).with("runs", runs, path("runs")).with(
            "distinct mixes",
            distinct,
            path("distinct"),
        );
        rows.add(path("terms"), of(&order_words(surface)), terms);
        let kind = wish.kind();
        if let Some(scatter) = kind.of_si(fit.spread) {
            let answer = mixture::scatter(scatter).of_parts(parts.clone()).with("terms", count(fit), path("terms"));
            rows.add(path("scatter"), of("scatter about the surface of"), answer);
        }
        if let Some(missed) = kind.of_si(fit.missed_left_out()) {
            let answer = mixture::missed_left_out(missed).of_parts(parts.clone());
            let answer = answer.with("terms", count(fit), path("terms"));
            rows.add(path("left-out"), of("by how much a mix is missed that is left out, in"), answer);
        }
        if let Some(explained) = fit.explained_left_out {
            let answer = mixture::explained_left_out(explained).of_parts(parts.clone());
            let answer = answer.with("terms", count(fit), path("terms"));
            rows.add(path("explained"), of("share of the scatter, each mix left out, that explains the"), answer);
        }
        let words = "chance that the surface, were it bent enough, misses repeated mixes so far in";
        match fit.lack {
            Some(lack) => {
                let answer = mixture::lack_of_fit(lack).of_parts(parts).with("terms", count(fit), path("terms"));
                rows.add(path("lack"), of(words), answer);
            }
            None => rows.not_known(path("lack"), of(&format!("{words} (repeat two mixes, and try one more)"))),
        }
    }

    /// Steps in a batch of the recipe.
    fn batch(&self, rows: &mut Rows) {
        let found = &self.mixes.found;
        let step = &self.mixes.step;
        let mut whole = mixture::steps_of_batch(step.value, found.whole).from("step", step.path.as_str());
        for (ingredient, path, buckets) in self.recipe() {
            whole = whole.with(format!("buckets of {ingredient}"), buckets, path);
        }
        rows.add(self.path("batch"), self.title("steps of a bucket in a batch, by"), whole);
    }

    /// How many mixes of whole steps there are between those that were tried.
    fn measurable(&self, rows: &mut Rows) {
        let (found, step) = (&self.mixes.found, &self.mixes.step);
        let count = mixture::steps_of_mixes(found.counts.len())
            .with("step", step.value, step.path.as_str())
            .with("steps of a batch", u64::from(found.whole), self.path("batch"))
            .of_parts(self.limits())
            .of_parts(self.shares_of(self.mixes.tried.iter()));
        rows.add(self.path("measurable"), self.title("mixes of whole steps within the limits of"), count);
    }

    fn limits(&self) -> Parts {
        let sides = self.mixes.parts.iter().flat_map(|(ingredient, [low, high])| {
            [(format!("fewest {ingredient}"), low), (format!("most {ingredient}"), high)]
        });
        sides.map(|(title, side)| (title, side.path.clone(), side.value.into())).collect()
    }

    /// Ingredients of the recipe on its batch card, with the row and the buckets of each.
    fn recipe(&self) -> Vec<(String, String, f64)> {
        let Some(recipe) = self.earth.recipe(&self.mixes.of) else { return Vec::new() };
        let buckets = self.earth.buckets(recipe);
        let parts = self.mixes.parts.iter().zip(buckets);
        parts.map(|((name, _), own)| (name.clone(), recipe.path(&format!("buckets.{name}")), own)).collect()
    }

    /// What the surfaces and wishes are, as inputs of a choice.
    fn choice(&self) -> Parts {
        let mut parts: Parts = Vec::new();
        for (wish, surface) in self.mixes.wishes.iter().zip(&self.mixes.found.surfaces) {
            let what = words(&wish.name);
            if let Some(scatter) = surface.fit.as_ref().ok().and_then(|fit| wish.kind().of_si(fit.spread)) {
                parts.push((format!("scatter of {what}"), self.path(&format!("fit.{}.scatter", wish.name)), scatter));
            }
            parts.extend(sides(wish));
        }
        let counted = self.mixes.found.counts.len() as u64;
        parts.push(("mixes of whole steps".to_owned(), self.path("measurable"), counted.into()));
        parts
    }

    /// The recipe that they choose, what is expected of it, and the mix to try next.
    fn chosen(&self, choice: &Choice, best: &[u32], rows: &mut Rows) {
        let step = &self.mixes.step;
        let choice_parts = self.choice();
        let mut chosen: Parts = Vec::new();
        let mut off = 0.0;
        let recipe = self.recipe();
        let mut off_parts: Parts = Vec::new();
        for ((ingredient, path_in_recipe, own), count) in recipe.iter().zip(best) {
            let [steps_path, path] = ["steps", "buckets"].map(|noun| self.path(&format!("best.{noun}.{ingredient}")));
            let steps = mixture::as_chosen(*count).of_parts(choice_parts.clone());
            let name = words(ingredient);
            let steps = rows.add(
                steps_path.as_str(),
                self.title(&format!("steps of {name} in the recipe that is chosen by")),
                steps,
            );
            let buckets = mixture::buckets_chosen(steps, step.value)
                .from("steps", steps_path.as_str())
                .from("step", step.path.as_str());
            let title = self.title(&format!("buckets of {name} in the recipe that is chosen by"));
            let buckets = rows.add(path.as_str(), title, buckets);
            chosen.push((format!("steps of {ingredient}"), steps_path, steps.into()));
            off += 0.5 * (own - buckets).abs();
            off_parts.push((format!("{ingredient} of the recipe"), path_in_recipe.clone(), (*own).into()));
            off_parts.push((format!("{ingredient} chosen"), path, buckets.into()));
        }
        let called = self.called().mix(best);
        let words = format!(
            "buckets to exchange in the recipe {} (write {called}), so that it is the one that is chosen by",
            words(&self.mixes.of)
        );
        rows.add(self.path("off"), self.title(&words), mixture::buckets_off(off).of_parts(off_parts));
        self.expected(choice, &chosen, rows);
        let near = choice.best.iter().map(|own| self.mixes.found.counts[own.place].as_slice());
        let title = self.title(&format!("mixes nearly as good ({}), by", self.called().region(near)));
        let nearly = mixture::nearly_as_good(choice.best.len()).of_parts(choice_parts);
        rows.add(self.path("nearly"), title, nearly);
        self.next(choice, &chosen, rows);
    }

    /// What the surfaces say of the chosen recipe.
    fn expected(&self, choice: &Choice, chosen: &Parts, rows: &mut Rows) {
        let mut overall = mixture::meets(choice.best[0].overall);
        for (place, (wish, surface)) in self.mixes.wishes.iter().zip(&self.mixes.found.surfaces).enumerate() {
            let (kind, predicted) = (wish.kind(), choice.best[0].predicted[place]);
            let (Some(value), Some(half), Ok(fit)) =
                (kind.of_si(predicted.value), kind.of_si(predicted.half), &surface.fit)
            else {
                continue;
            };
            let path = |noun: &str| self.path(&format!("best.{}.{noun}", wish.name));
            let what = words(&wish.name);
            let terms = self.path(&format!("fit.{}.terms", wish.name));
            let answer = mixture::expected(value).of_parts(self.runs(place, surface)).of_parts(chosen.clone());
            let answer = answer.with("terms", count(fit), terms);
            let title = self.title(&format!("{what} that is expected of the recipe chosen by"));
            rows.add(path("expected"), title, answer);
            let scatter = self.path(&format!("fit.{}.scatter", wish.name));
            if let Some(spread) = kind.of_si(fit.spread) {
                let runs = surface.runs.iter().map(|run| &self.mixes.tried[*run]);
                let answer = mixture::off_by(spread, half).from("scatter", scatter).of_parts(self.shares_of(runs));
                let title = format!("how far off one more of the recipe may lie, 19 times of 20, in {what} by");
                rows.add(path("within"), self.title(&title), answer.of_parts(chosen.clone()));
            }
            overall = overall.with(format!("{what} expected"), value, path("expected")).of_parts(sides(wish));
        }
        rows.add(self.path("overall"), self.title("how much of all wishes is met by the recipe chosen by"), overall);
    }

    /// The mix to try next.
    fn next(&self, choice: &Choice, chosen: &Parts, rows: &mut Rows) {
        let wish = &self.mixes.wishes[choice.governing];
        let surface = &self.mixes.found.surfaces[choice.governing];
        let kind = wish.kind();
        let spread = surface.fit.as_ref().ok().and_then(|fit| kind.of_si(fit.spread));
        let (Some(half), Some(spread)) = (kind.of_si(choice.next.1), spread) else { return };
        let (what, next) = (words(&wish.name), self.called().mix(&self.mixes.found.counts[choice.next.0]));
        let counted = self.mixes.found.counts.len() as u64;
        let answer = mixture::narrowed(spread, half)
            .from("scatter", self.path(&format!("fit.{}.scatter", wish.name)))
            .of_parts(self.shares_of(surface.runs.iter().map(|run| &self.mixes.tried[*run])))
            .of_parts(chosen.clone())
            .with("mixes of whole steps", counted, self.path("measurable"));
        let title = format!(
            "how far off one more of the recipe may lie in {what}, which governs, once {next} is tried next, by"
        );
        rows.add(self.path("next"), self.title(&title), answer);
    }
}

/// What is wanted, and where a mix is useless, as inputs.
fn sides(wish: &Wish) -> Parts {
    let what = words(&wish.name);
    let wanted = std::iter::once((format!("{what} wanted"), &wish.value));
    let useless = wish.useless.iter().flatten().map(|side| (format!("{what} of no use"), side));
    wanted.chain(useless).map(|(title, side)| (title, side.path.clone(), side.value)).collect()
}

/// How many terms a surface has.
fn count(fit: &Fit) -> u64 {
    fit.terms.count() as u64
}

/// The order of a surface, and why it is no more bent.
fn order_words(surface: &MixSurface) -> String {
    let own = format!("terms of the surface ({}", surface.order.word());
    match &surface.capped {
        Some((bent, why)) => format!("{own}; not {}: {}) of", bent.word(), why.in_words()),
        None => format!("{own}) of"),
    }
}
