//! Rows of a log of batches: yield, moisture and people's time of each, the strip of the first ten, which later ones lie outside.

use crate::earth;
use crate::earth::tables::number;
use crate::house::{Batch, Batches, Filled, House, Recipe};
use crate::reason::Answer;
use crate::row::Rows;
use crate::solve::whole::rounded_up;
use crate::units::{Days, Fineness, Quantity, Ratio, System, Volume};

pub(super) fn walk(house: &House, rows: &mut Rows) {
    for batches in &house.batches {
        let Some((earth, recipe)) = house.earth.as_ref().and_then(|earth| Some((earth, earth.recipe(&batches.of)?)))
        else {
            continue;
        };
        let log = Log { batches, recipe, system: house.system, name: batches.name.replace('-', " ") };
        log.walk((earth.bucket(), earth.bucket_path()), rows);
    }
}

/// The log of batches of one recipe.
struct Log<'a> {
    batches: &'a Batches,
    recipe: &'a Recipe,
    system: System,
    name: String,
}

/// What was found of a batch: its name, the row, the value.
type Found = (String, String, Ratio);

/// The strip of a quantity.
struct Strip {
    middle: Ratio,
    half: Ratio,
}

impl Log<'_> {
    fn path(&self, noun: &str) -> String {
        self.batches.path(noun)
    }

    fn title(&self, words: &str) -> String {
        format!("{words} the batches {}", self.name)
    }

    fn path_of(&self, batch: &Batch, noun: &str) -> String {
        self.path(&format!("each.{}.{noun}", batch.name))
    }

    fn walk(&self, bucket: (Volume, &str), rows: &mut Rows) {
        if let Some(day) = &self.batches.day {
            rows.known(self.title("day of the first of"), day);
        }
        let mut yields: Vec<Found> = Vec::new();
        let mut moistures: Vec<Found> = Vec::new();
        for batch in &self.batches.each {
            yields.extend(self.placed(batch, bucket, rows));
            moistures.extend(self.moisture(batch, rows));
            self.work(batch, rows);
        }
        self.time(rows);
        let strips = [("yield", "yield", &yields), ("moisture", "moisture, of dry mass,", &moistures)];
        let strips = strips.map(|(noun, words, found)| (noun, found, self.strip(noun, words, found, rows)));
        self.outside(&strips, rows);
        self.apart(rows);
    }

    /// What a batch filled: as it was measured, or its share of the lift that it was laid in.
    fn filled(&self, batch: &Batch, rows: &mut Rows) -> Option<(Volume, String)> {
        let title = format!("volume placed of batch {} of {}", batch.name, self.name);
        match batch.placed.as_ref()? {
            Filled::Measured(placed) => Some((rows.known(title, placed), placed.path.clone())),
            Filled::OfLift(lift, share) => {
                let share_path = share.path.as_str();
                let words = format!("share of {lift} that batch {} of {} filled", batch.name, self.name);
                let share = rows.known(words, share);
                let lift = |noun: &str| format!("wall.lifts.{lift}.{noun}");
                let [volume, off] = ["volume", "trimmings"].map(|noun| rows.value::<Volume>(&lift(noun)));
                let answer = earth::share_of_lift(share, volume?, off?)
                    .from("share", share_path)
                    .from("volume", lift("volume"))
                    .from("trimmings", lift("trimmings"));
                let path = self.path_of(batch, "placed");
                Some((rows.add(path.as_str(), title, answer), path))
            }
        }
    }

    /// The yield of a batch.
    fn placed(&self, batch: &Batch, (bucket, bucket_path): (Volume, &str), rows: &mut Rows) -> Option<Found> {
        let own = |words: &str| format!("{words} batch {} of {}", batch.name, self.name);
        let (placed, placed_path) = self.filled(batch, rows)?;
        let of_the_recipe = self.recipe.path("loose-volume");
        let (loose, path) = match &batch.buckets {
            Some(buckets) => {
                rows.known(own("buckets in"), buckets);
                let loose = earth::loose_volume(bucket, buckets.value).from("bucket", bucket_path).with(
                    "buckets",
                    buckets.value,
                    buckets.path.as_str(),
                );
                let path = self.path_of(batch, "loose");
                (rows.add(path.as_str(), own("loose volume of"), loose), path)
            }
            None => (rows.value::<Volume>(&of_the_recipe)?, of_the_recipe),
        };
        let own_path = self.path_of(batch, "yield");
        if placed > loose * Recipe::MOST_YIELD {
            let words = "yield (its share of the lift is more than three times what its buckets hold) of";
            rows.not_known(own_path, own(words));
            return None;
        }
        let answer = earth::placed_yield(placed, loose).from("placed", placed_path).from("loose", path);
        let value = rows.add(own_path.as_str(), own("yield of"), answer);
        Some((batch.name.clone(), own_path, value))
    }

    fn moisture(&self, batch: &Batch, rows: &mut Rows) -> Option<Found> {
        let own = |words: &str| format!("{words} batch {} of {}", batch.name, self.name);
        let [wet, dry] = batch.handful.as_ref()?;
        rows.known(own("mass of a handful of"), wet);
        rows.known(own("mass of the dried handful of"), dry);
        let answer = earth::moisture(wet.value, dry.value);
        let answer = answer.from("wet mass", wet.path.as_str()).from("dry mass", dry.path.as_str());
        let path = self.path_of(batch, "moisture");
        let value = rows.add(path.as_str(), own("moisture, of dry mass, of"), answer);
        Some((batch.name.clone(), path, value))
    }

    fn work(&self, batch: &Batch, rows: &mut Rows) {
        let own = |words: &str| format!("{words} batch {} of {}", batch.name, self.name);
        let Some((people, time)) = &batch.work else { return };
        rows.known(own("people at"), people);
        rows.known(own("time for"), time);
        let answer = earth::person_time(people.value, time.value);
        let answer = answer.from("people", people.path.as_str()).from("time", time.path.as_str());
        rows.add(self.path_of(batch, "person-time"), own("people's time for"), answer);
    }

    /// People's time for the volume that they place.
    fn time(&self, rows: &mut Rows) {
        let both = self.batches.each.iter().filter(|batch| batch.work.is_some() && batch.placed.is_some());
        let paths = |noun: &str| both.clone().map(|batch| self.path_of(batch, noun)).collect::<Vec<_>>();
        let times = rows.parts::<Days>(paths("person-time"));
        let placed = rows.parts::<Volume>(paths("placed"));
        if times.is_empty() {
            return;
        }
        let time = earth::time_in_all(times.iter().map(|(.., time)| *time).sum()).of_parts(times);
        let time = rows.add(self.path("person-time"), self.title("people's time for all of"), time);
        let volume = earth::placed_in_all(placed.iter().map(|(.., volume)| *volume).sum()).of_parts(placed);
        let volume = rows.add(self.path("placed"), self.title("volume placed of all of"), volume);
        let each = earth::time_for_volume(time, volume).from("time", self.path("person-time"));
        let title = self.title("people's time for each volume placed, by");
        rows.add(self.path("time-for-volume"), title, each.from("placed", self.path("placed")));
    }

    /// Middle and reach of the first ten, as far as there are ten.
    fn strip(&self, noun: &str, words: &str, found: &[Found], rows: &mut Rows) -> Option<Strip> {
        let wanted = rounded_up(number("strip-runs")) as usize;
        let first = &found[..found.len().min(wanted)];
        let values: Vec<f64> = first.iter().map(|(.., value)| value.in_fraction()).collect();
        if values.is_empty() {
            return None;
        }
        let path = |part: &str| self.path(&format!("{noun}.{part}"));
        let middle = earth::strip_middle(values.iter().sum::<f64>() / values.len() as f64).of_parts(first.to_vec());
        let title = self.title(&format!("mean {words} of the first {} of", values.len()));
        let middle = rows.add(path("mean"), title, middle);
        if values.len() < wanted {
            let more = wanted - values.len();
            rows.not_known(path("reach"), self.title(&format!("strip of the {words} (log {more} more), of")));
            return None;
        }
        let (_, half) = earth::strip(&values)?;
        if half <= 0.0 {
            let words = format!("strip of the {words} (all {wanted} are alike: measure finer), of");
            rows.not_known(path("reach"), self.title(&words));
            return None;
        }
        let answer = earth::strip_reach(half).of_parts(first.to_vec());
        let title = self.title(&format!("how far from their mean a later {words} may lie, by the first {wanted} of"));
        Some(Strip { middle, half: rows.add(path("reach"), title, answer) })
    }

    /// Which later batches lie outside.
    fn outside(&self, strips: &[(&str, &Vec<Found>, Option<Strip>); 2], rows: &mut Rows) {
        let wanted = rounded_up(number("strip-runs")) as usize;
        let lacking = strips.iter().map(|(_, found, _)| wanted.saturating_sub(found.len())).min().unwrap_or(wanted);
        let told = strips.iter().filter_map(|(noun, found, strip)| {
            let later = found.get(wanted..).filter(|later| !later.is_empty());
            Some((*noun, later?, strip.as_ref()?))
        });
        let told: Vec<_> = told.collect();
        if told.is_empty() && strips.iter().any(|(.., strip)| strip.is_some()) {
            let words = "later batches outside of the strip, of which none is logged yet (log one more), of";
            return rows.not_known(self.path("changed"), self.title(words));
        }
        if strips.iter().all(|(.., strip)| strip.is_none()) {
            let words = format!("later batches outside of the strip, which is not known yet (log {lacking} more), of");
            return rows.not_known(self.path("changed"), self.title(&words));
        }
        let mut names: Vec<&str> = Vec::new();
        let mut said: Vec<String> = Vec::new();
        let mut answer: Answer<u64> = earth::outside(0);
        for (noun, later, strip) in &told {
            answer = answer.with(format!("mean {noun}"), strip.middle, self.path(&format!("{noun}.mean")));
            answer = answer.with(format!("reach of the {noun}"), strip.half, self.path(&format!("{noun}.reach")));
            for (name, path, value) in *later {
                answer = answer.with(format!("{noun} of {name}"), *value, path.as_str());
                if (*value - strip.middle).abs() > strip.half {
                    let ends = [strip.middle - strip.half, strip.middle + strip.half].map(|end| self.shown(end));
                    said.push(format!("{name}, {noun} {}, not {} to {}", self.shown(*value), ends[0], ends[1]));
                    if !names.contains(&name.as_str()) {
                        names.push(name);
                    }
                }
            }
        }
        answer.value = names.len() as u64;
        let nouns = told.iter().map(|(noun, ..)| *noun).collect::<Vec<_>>().join(" and ");
        let strip = format!("later batches outside of the strip of {nouns}");
        let words = if said.is_empty() {
            format!("{strip} of")
        } else {
            format!("{strip} ({}: stop, find what changed: sand damp? another pile?) of", said.join("; "))
        };
        let count = rows.add(self.path("outside"), self.title(&format!("count of {strip} of")), answer);
        let answer = earth::batches_changed(count).from("outside", self.path("outside"));
        rows.add(self.path("changed"), self.title(&words), answer);
    }

    fn shown(&self, ratio: Ratio) -> String {
        Quantity::from(ratio).shown(self.system, Fineness::Figure)
    }

    /// By how much the yield of the log is not that of the recipe.
    fn apart(&self, rows: &mut Rows) {
        let Some(mean) = rows.value::<Ratio>(&self.path("yield.mean")) else { return };
        let answer = earth::yield_apart(mean, self.recipe.placed_yield.value).from("logged", self.path("yield.mean"));
        let answer = answer.from("of the recipe", self.recipe.path("yield"));
        let recipe = self.recipe.name.replace('-', " ");
        let words = format!(
            "by how much more than the recipe {recipe} says (write yield = \"{:.0} %\") yield",
            mean.in_percent()
        );
        rows.add(self.path("yield.apart"), self.title(&words), answer);
    }
}
