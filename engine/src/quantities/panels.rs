//! Rows of test panels: what each is made of and what judges scored, how far judges differ, the mix that they choose, the next panel.

use super::called::Called;
use crate::build::Face;
use crate::earth::mixture;
use crate::earth::panel::{self, ASPECTS, Chosen, Judged};
use crate::house::{Earth, House, Panel, Panels, PanelsFound};
use crate::known::{Known, Origin};
use crate::row::Rows;
use crate::units::{Quantity, Ratio};

pub(super) fn walk(house: &House, rows: &mut Rows) {
    for panels in &house.panels {
        if let Some(earth) = &house.earth {
            let face = if panels.face == Face::Inside { "inside" } else { "outside" };
            let name = panels.name.replace('-', " ");
            let name = if name == face { name } else { format!("{name}, {face}") };
            Series { panels, earth, name }.walk(rows);
        }
    }
}

/// Panels of one recipe on one face.
struct Series<'a> {
    panels: &'a Panels,
    earth: &'a Earth,
    name: String,
}

/// Title, path and value of what a row is computed from.
type Parts = Vec<(String, String, Quantity)>;

impl Series<'_> {
    fn path(&self, noun: &str) -> String {
        self.panels.path(noun)
    }

    fn title(&self, words: &str) -> String {
        format!("{words} the panels {}", self.name)
    }

    fn called(&self) -> Called<'_> {
        Called { names: self.panels.parts.iter().map(String::as_str).collect(), step: self.panels.step.value }
    }

    fn walk(&self, rows: &mut Rows) {
        let panels = self.panels;
        if let Some(day) = &panels.day {
            rows.known(self.title("day of scoring"), day);
        }
        rows.known(self.title("least part of a bucket that is measured in"), &panels.step);
        for panel in &panels.each {
            self.panel(panel, rows);
        }
        self.thickness(rows);
        let scored = panel::panels_scored(panels.each.len()).of_parts(self.shares());
        rows.add(self.path("panels"), self.title("scored ones among"), scored);
        self.rejected(rows);
        self.lacks(rows);
        for (aspect, (judges, judged)) in panels.found.judged.iter().enumerate() {
            if let Some(judged) = judged {
                self.judges(aspect, judges, judged, rows);
            }
        }
        match &panels.found.choice {
            Ok(chosen) => self.chosen(chosen, rows),
            Err(why) => {
                let words = format!("recipe, which is not chosen yet ({}), of", why.in_words());
                rows.not_known(self.path("off"), self.title(&words));
            }
        }
    }

    /// What one panel was made of and what was scored.
    fn panel(&self, panel: &Panel, rows: &mut Rows) {
        let (name, of) = (panel.name.replace('-', " "), &self.name);
        // The share of the last one is what the others leave.
        let (told, whole) = (self.panels.parts.len() - 1, format!("panel {name}, {of}"));
        self.called().made_of(&panel.buckets, (told, &whole), |own| self.share_path(panel, own), rows);
        for (aspect, scores) in ASPECTS.iter().zip(&panel.scores) {
            for (judge, score) in self.panels.judges.iter().zip(scores) {
                if let Some(score) = score {
                    rows.known(format!("{aspect} of panel {name}, {of}, as {judge} scored it"), score);
                }
            }
        }
    }

    fn share_path(&self, panel: &Panel, ingredient: &str) -> String {
        self.path(&format!("each.{}.share.{ingredient}", panel.name))
    }

    /// The shares of all panels, as inputs.
    fn shares(&self) -> Parts {
        let own = self.panels.each.iter().flat_map(|panel| {
            let parts = self.panels.parts.iter().zip(&panel.buckets).zip(panel.shares());
            parts.take(self.panels.parts.len() - 1).filter_map(move |((ingredient, own), share)| {
                own.as_ref()?;
                let share = Ratio::fraction(share).into();
                Some((format!("{ingredient} in {}", panel.name), self.share_path(panel, ingredient), share))
            })
        });
        own.collect()
    }

    /// The scores of an aspect, as inputs.
    fn scores(&self, aspect: usize) -> Parts {
        let scores = self.panels.scores(aspect).map(|(place, judge, score)| {
            let name =
                format!("{} of {} by {}", ASPECTS[aspect], self.panels.each[place].name, self.panels.judges[judge]);
            (name, score.path.clone(), score.value.into())
        });
        scores.collect()
    }

    /// The thinnest panel, and by how much the coat is thicker.
    fn thickness(&self, rows: &mut Rows) {
        let panels = self.panels;
        for (place, panel) in panels.each.iter().enumerate() {
            let own = &panel.thickness;
            if panels.each[..place].iter().any(|other| other.thickness.path == own.path) {
                continue;
            }
            let title = match own.path == self.path("thickness") {
                true => self.title("thickness of"),
                false => format!("thickness of panel {}, {}", panel.name.replace('-', " "), self.name),
            };
            rows.known(title, own);
        }
        let thicknesses = panels.each.iter().map(|panel| &panel.thickness);
        let thinnest = thicknesses.reduce(|one, other| if other.value < one.value { other } else { one });
        let Some(thinnest) = thinnest else { return };
        let over = panel::coat_over_panel(panels.coat.value, thinnest.value)
            .from("coat", panels.coat.path.as_str())
            .from("panel", thinnest.path.as_str());
        rows.add(self.path("over"), self.title("thickness of the coat beyond the thinnest of"), over);
    }

    fn rejected(&self, rows: &mut Rows) {
        let names: Vec<String> =
            self.panels.found.rejected.iter().map(|place| self.panels.each[*place].name.replace('-', " ")).collect();
        let named = if names.is_empty() { "none".to_owned() } else { names.join(", ") };
        let parts = (0..ASPECTS.len()).flat_map(|aspect| self.scores(aspect)).collect();
        let count = panel::panels_rejected(names.len()).of_parts(parts);
        let words = format!("panels that a score of {} rejects ({named}), of", panel::worst());
        rows.add(self.path("rejected"), self.title(&words), count);
    }

    /// Distinct mixes that two judges scored in the aspect where those are fewest; what keeps a choice on trust: too few of those, or panels that were not looked at in all.
    fn lacks(&self, rows: &mut Rows) {
        let PanelsFound { distinct: (aspect, found), wanted, unscored, choice, .. } = &self.panels.found;
        if found < wanted && choice.is_ok() {
            let title = format!(
                "distinct mixes that two judges scored for {}, fewer than the {wanted} of which one can contradict a choice, among",
                ASPECTS[*aspect]
            );
            let why = "a line through few mixes cannot be contradicted: try more of them";
            rows.known(self.title(&title), &self.taken("distinct", *found, why));
        } else {
            let counted = mixture::distinct_mixes(*found).of_parts(self.scores(*aspect)).of_parts(self.shares());
            rows.add(
                self.path("distinct"),
                self.title("distinct mixes that two judges scored in each aspect, among"),
                counted,
            );
        }
        if !unscored.is_empty() && choice.is_ok() {
            let names = unscored.iter().map(|place| self.panels.each[*place].name.replace('-', " "));
            let names = names.collect::<Vec<_>>().join(", ");
            let all = ASPECTS.join(", ");
            let title = format!("panels ({names}) that two judges did not score in all of {all}, of");
            let why =
                "what nobody wiped, knocked or looked at is taken for as good as the others: let two judges score it";
            rows.known(self.title(&title), &self.taken("unscored", unscored.len(), why));
        }
    }

    fn taken(&self, noun: &str, count: usize, why: &'static str) -> Known<u64> {
        Known::assumed(count as u64, self.path(noun), Origin::Judgement, why)
    }

    /// How far judges differ, and how severe each is beside the first.
    fn judges(&self, aspect: usize, judges: &[usize], judged: &Judged, rows: &mut Rows) {
        let what = ASPECTS[aspect];
        match judged.apart {
            Some(apart) => {
                let answer = panel::judges_apart(apart).of_parts(self.scores(aspect));
                let title = self.title(&format!("how far two scores of one panel lie apart in {what}, of"));
                rows.add(self.path(&format!("fit.{what}.apart")), title, answer);
            }
            None => {
                let words = format!("how far judges differ in {what} (let a second one score the same panels), of");
                rows.not_known(self.path(&format!("fit.{what}.apart")), self.title(&words));
            }
        }
        let name = |place: usize| &self.panels.judges[judges[place]];
        for (place, severity) in judged.severity().into_iter().enumerate().skip(1) {
            let answer = panel::odds_of_judge(severity).of_parts(self.scores(aspect)).of_parts(self.shares());
            let words = format!("odds of a worse score of {what} by {}, over those by {}, of", name(place), name(0));
            rows.add(self.severity_path(aspect, name(place)), self.title(&words), answer);
        }
    }

    fn severity_path(&self, aspect: usize, judge: &str) -> String {
        self.path(&format!("fit.{}.severity.{judge}", ASPECTS[aspect]))
    }

    /// What the scores of an aspect say, as inputs: the odds of its judges, else its scores and the shares of all panels.
    fn fit(&self, aspect: usize) -> Parts {
        let (judges, Some(judged)) = &self.panels.found.judged[aspect] else { return Vec::new() };
        if judges.len() < 2 {
            return self.scores(aspect).into_iter().chain(self.shares()).collect();
        }
        let odds = judges.iter().zip(judged.severity()).skip(1).map(|(judge, severity)| {
            let judge = &self.panels.judges[*judge];
            let title = format!("odds of {judge} in {}", ASPECTS[aspect]);
            (title, self.severity_path(aspect, judge), severity.exp().into())
        });
        odds.collect()
    }

    /// The mix that they choose, what is expected of it, and the next panel.
    fn chosen(&self, chosen: &Chosen, rows: &mut Rows) {
        let found = &self.panels.found;
        let measurable = panel::steps_between(found.counts.len())
            .from("panels", self.path("panels"))
            .with("rejected", found.rejected.len() as u64, self.path("rejected"))
            .of_parts(self.shares())
            .with("step", self.panels.step.value, self.panels.step.path.as_str())
            .of_parts(self.recipe());
        let measurable = rows.add(
            self.path("measurable"),
            self.title("mixes of whole steps between, and not rejected of,"),
            measurable,
        );
        let told = (0..ASPECTS.len()).filter(|aspect| chosen.chances[*aspect].is_some());
        let choice: Parts = told
            .flat_map(|aspect| self.fit(aspect))
            .chain([("mixes of whole steps".to_owned(), self.path("measurable"), measurable.into())])
            .collect();
        let steps = self.steps(&found.counts[chosen.best[0].0], &choice, rows);
        self.chances(chosen, &steps, rows);
        let near = chosen.best.iter().map(|(place, _)| found.counts[*place].as_slice());
        let title = self.title(&format!("mixes nearly as good ({}), by", self.called().region(near)));
        let nearly = panel::mix_nearly_as_good(chosen.best.len()).of_parts(choice);
        rows.add(self.path("nearly"), title, nearly);
    }

    /// Buckets of each ingredient on the batch card, with their rows.
    fn recipe(&self) -> Parts {
        let Some(recipe) = self.earth.recipe(&self.panels.of) else { return Vec::new() };
        let parts = self.panels.parts.iter().zip(self.earth.buckets(recipe));
        parts
            .map(|(name, own)| (format!("{name} of the recipe"), recipe.path(&format!("buckets.{name}")), own.into()))
            .collect()
    }

    /// Steps and buckets of the chosen mix, and how far the recipe is off; the steps as inputs.
    fn steps(&self, best: &[u32], choice: &Parts, rows: &mut Rows) -> Parts {
        let step = &self.panels.step;
        let (mut steps, mut off, mut off_parts): (Parts, f64, Parts) = (Vec::new(), 0.0, Vec::new());
        for ((part, count), own) in self.panels.parts.iter().zip(best).zip(self.recipe()) {
            let name = part.replace('-', " ");
            let [steps_path, path] = ["steps", "buckets"].map(|noun| self.path(&format!("best.{noun}.{part}")));
            let title = self.title(&format!("steps of {name} in the mix that is chosen by"));
            let counted = rows.add(steps_path.as_str(), title, mixture::as_chosen(*count).of_parts(choice.clone()));
            let buckets = mixture::buckets_chosen(counted, step.value)
                .from("steps", steps_path.as_str())
                .from("step", step.path.as_str());
            let title = self.title(&format!("buckets of {name} in the mix that is chosen by"));
            let buckets = rows.add(path.as_str(), title, buckets);
            off += 0.5 * own.2.si().map_or(0.0, |own| (own - buckets).abs());
            off_parts.extend([own, (format!("{name} chosen"), path, buckets.into())]);
            steps.push((format!("steps of {part}"), steps_path, counted.into()));
        }
        let words = format!(
            "buckets to exchange in the recipe {} (write {}), so that it is the one that is chosen by",
            self.panels.of.replace('-', " "),
            self.called().mix(best)
        );
        let trusted = ["distinct", "unscored"].map(|noun| self.path(noun));
        let trusted = trusted.iter().filter_map(|path| rows.find(path)).filter(|row| row.is_assumed());
        let trusted: Parts =
            trusted.map(|row| (String::from("taken on trust"), row.path.clone(), row.quantity)).collect();
        let off = mixture::buckets_off(off).of_parts(off_parts).of_parts(trusted);
        rows.add(self.path("off"), self.title(&words), off);
        steps
    }

    /// The chance of a good score in each aspect and in all, and what the next panel would make of the least sure one.
    fn chances(&self, chosen: &Chosen, steps: &Parts, rows: &mut Rows) {
        let good = panel::good();
        let mut common = panel::common_chance(chosen.best[0].1);
        for (aspect, what) in ASPECTS.iter().enumerate() {
            let path = |noun: &str| self.path(&format!("best.{what}.{noun}"));
            let Some([chance, sure]) = chosen.chances[aspect] else {
                let why = match self.panels.scores(aspect).next() {
                    Some(_) => "all were good, and tell no mix from another",
                    None => "nobody scored it",
                };
                let words = format!("chance of a score of {what} of at most {good} ({why}), by");
                rows.not_known(path("chance"), self.title(&words));
                continue;
            };
            let parts: Parts = self.fit(aspect).into_iter().chain(steps.iter().cloned()).collect();
            let answer = panel::by_what_scored(chance).of_parts(parts.clone());
            let title = self.title(&format!("chance that the chosen mix scores at most {good} in {what}, by"));
            let chance = rows.add(path("chance"), title, answer);
            let answer = panel::surely(chance, sure).from("chance", path("chance")).of_parts(parts);
            let title = self
                .title(&format!("what that chance in {what} surely is, 19 times of 20, each panel counted once, by"));
            rows.add(path("surely"), title, answer);
            common = common.with(format!("chance in {what}"), chance, path("chance"));
        }
        rows.add(
            self.path("overall"),
            self.title(&format!("chance that one judge scores the chosen mix at most {good} in all of it, by")),
            common,
        );
        let what = ASPECTS[chosen.governing];
        let surely = chosen.chances[chosen.governing].map_or(0.0, |[_, sure]| sure);
        let next = panel::sure_after(chosen.next.1)
            .with("surely now", Ratio::fraction(surely), self.path(&format!("best.{what}.surely")))
            .with("mixes of whole steps", self.panels.found.counts.len() as u64, self.path("measurable"));
        let words = format!(
            "what the chance in {what}, the least sure, is expected surely to be once a panel of {} is scored next, by",
            self.called().mix(&self.panels.found.counts[chosen.next.0])
        );
        rows.add(self.path("next"), self.title(&words), next);
    }
}
