//! Rows of jars: when to mark them, what their layers are, and what those say of sand, silt and clay.

use crate::build::SEPARATES;
use crate::earth::soil::{self, Layer};
use crate::house::{House, Jar, Settled};
use crate::reason::Answer;
use crate::row::Rows;
use crate::units::{Days, Length, Ratio};

pub(super) fn walk(house: &House, rows: &mut Rows) {
    for jar in &house.jars {
        Shaken { jar }.walk(rows);
    }
}

/// One jar.
struct Shaken<'a> {
    jar: &'a Jar,
}

impl Shaken<'_> {
    fn path(&self, noun: &str) -> String {
        self.jar.path(noun)
    }

    fn title(&self, words: &str) -> String {
        format!("{words} jar {} of {}", self.jar.name.replace('-', " "), self.jar.of.replace('-', " "))
    }

    fn walk(&self, rows: &mut Rows) {
        let jar = self.jar;
        if let Some(day) = &jar.day {
            rows.known(self.title("day on which soil was shaken in"), day);
        }
        rows.known(self.title("height of the water in"), &jar.height);
        rows.known(self.title("temperature of the water in"), &jar.water);
        rows.known(self.title("density of the grains in"), &jar.grain);
        if let Some(crumbs) = &jar.crumbs {
            rows.known(self.title("share of the layer of silt that may be clay in crumbs, in"), crumbs);
        }
        let marks = self.marks(rows);
        let is_read = match &jar.settled {
            Settled::Layers(layers, all) => {
                for (separate, layer) in SEPARATES.iter().zip(layers.iter()) {
                    rows.known(self.title(&format!("layer of {separate} in")), layer);
                }
                rows.known(self.title("height of all layers in"), all);
                true
            }
            Settled::Read(readings, aside) => {
                for reading in readings.iter().chain(aside) {
                    let name = &reading.name;
                    let aside = reading.aside.as_ref().map_or_else(String::new, |why| format!(", set aside: {why}"));
                    let title = |words: &str| format!("{}{aside}", self.title(&format!("{words} reading {name} of")));
                    rows.known(title("time of"), &reading.after);
                    rows.known(title("height that had settled by"), &reading.height);
                }
                self.layers_between(marks, rows)
            }
        };
        if is_read {
            self.shares(rows);
        }
    }

    /// When all sand and all silt are down.
    fn marks(&self, rows: &mut Rows) -> [Days; 2] {
        let words = ["when to mark the sand of", "when to mark sand and silt of"];
        let mut marks = self.jar.marks().into_iter().zip(["mark-sand", "mark-silt"]).zip(words);
        [0, 1].map(|_| {
            let Some(((fall, noun), words)) = marks.next() else { return Days::ZERO };
            let fall =
                ["grain", "viscosity", "water density", "gravity"].iter().fold(fall, |fall, name| fall.without(name));
            let fall = fall.from("way down", self.path("height")).from("grain density", self.path("grain")).with(
                "temperature of the water",
                self.jar.water.value,
                self.path("water"),
            );
            rows.add(self.path(noun), self.title(words), fall)
        })
    }

    /// Thickness of the layers from readings before and after each mark; whether the jar has stood long enough.
    fn layers_between(&self, marks: [Days; 2], rows: &mut Rows) -> bool {
        let Settled::Read(readings, _) = &self.jar.settled else { return false };
        let reading = |name: &str, noun: &str| self.path(&format!("readings.{name}.{noun}"));
        let Some(last) = readings.last() else { return false };
        let [_, silt_down] = marks;
        if last.after.value < silt_down {
            let wait = soil::still_to_stand(silt_down, last.after.value)
                .from("silt down", self.path("mark-silt"))
                .from("last reading", last.after.path.as_str());
            rows.add(self.path("still-to-stand"), self.title("time still to wait for the layers of"), wait);
            return false;
        }
        for ((mark, noun), words) in marks.into_iter().zip(["sand", "silt"]).zip(["sand", "sand and silt"]) {
            let pair = readings.windows(2).find(|pair| pair[0].after.value <= mark && mark <= pair[1].after.value);
            let Some([before, after]) = pair else { return false };
            let top =
                soil::settled_at(mark, before.height.value, after.height.value, before.after.value, after.after.value)
                    .from("time", self.path(&format!("mark-{noun}")))
                    .from("before", reading(&before.name, "height"))
                    .from("after", reading(&after.name, "height"))
                    .from("time before", reading(&before.name, "after"))
                    .from("time after", reading(&after.name, "after"));
            rows.add(self.path(&format!("top.{noun}")), self.title(&format!("top of {words} in")), top);
        }
        let tops = [self.path("top.sand"), self.path("top.silt"), reading(&last.name, "height")];
        let mut lower: Option<(&String, Length)> = None;
        for (separate, top) in SEPARATES.iter().zip(&tops) {
            let Some(upper) = rows.value::<Length>(top) else { return false };
            let layer = match lower {
                Some((path, below)) => soil::layer_between(below, upper).from("lower", path.as_str()),
                None => soil::layer_between(Length::ZERO, upper).without("lower"),
            };
            let title = self.title(&format!("layer of {separate} in"));
            rows.add(self.path(&format!("layers.{separate}")), title, layer.from("upper", top.as_str()));
            lower = Some((top, upper));
        }
        true
    }

    /// The least, the greatest and the middle share of sand, silt and clay.
    fn shares(&self, rows: &mut Rows) {
        let packing = &self.jar.packing;
        for (separate, pair) in SEPARATES.iter().zip(packing) {
            for (side, known) in ["least", "greatest"].iter().zip(pair) {
                rows.known(self.title(&format!("{side} dry mass in a settled volume of {separate}, in")), known);
            }
        }
        let heights = SEPARATES.map(|separate| rows.value(&self.path(&format!("layers.{separate}"))));
        let [Some(sand), Some(silt), Some(clay)] = heights else { return };
        let layers: Vec<Layer> = [sand, silt, clay]
            .into_iter()
            .zip(packing)
            .map(|(height, [least, most])| Layer { height, density: [least.value, most.value] })
            .collect();
        for (of, separate) in SEPARATES.into_iter().enumerate() {
            for (side, share) in soil::layer_band(&layers, of).into_iter().enumerate() {
                let share = self.bound(share, of, side, &layers);
                self.share(separate, side, share, rows);
            }
        }
        self.crumbs(rows);
        for separate in SEPARATES {
            let [low, high] = ["low", "high"].map(|side| self.path(&format!("{separate}-{side}")));
            let [Some(least), Some(most)] = [&low, &high].map(|path| rows.value::<Ratio>(path)) else { continue };
            let middle = soil::middle_of_band(least, most).from("low", low).from("high", high);
            let title = self.title(&format!("{separate} by dry mass, middle of its band, by"));
            rows.add(self.path(&format!("{separate}-middle")), title, middle);
        }
    }

    /// Names what a share comes from: its own layer at one end of its packing, all others at the other end.
    fn bound(&self, share: Answer<Ratio>, of: usize, side: usize, layers: &[Layer]) -> Answer<Ratio> {
        let height = |at: usize| self.path(&format!("layers.{}", SEPARATES[at]));
        let packing = &self.jar.packing;
        let share = share.from("height", height(of)).from("density", packing[of][side].path.as_str());
        (0..SEPARATES.len()).filter(|at| *at != of).fold(share, |share, at| {
            let other = &packing[at][1 - side];
            share.with(format!("layer of {}", SEPARATES[at]), layers[at].height, height(at)).with(
                format!("density of {}", SEPARATES[at]),
                other.value,
                other.path.as_str(),
            )
        })
    }

    fn share(&self, separate: &str, side: usize, share: Answer<Ratio>, rows: &mut Rows) {
        let (noun, word) = [("low", "least"), ("high", "greatest")][side];
        let is_bare = self.jar.crumbs.is_some() && matches!((separate, noun), ("silt", "low") | ("clay", "high"));
        let (stem, more) = if is_bare { ("as-settled.", ", its crumbs of clay not counted") } else { ("", "") };
        let title = self.title(&format!("{word} {separate} by dry mass{more}, by"));
        rows.add(self.path(&format!("{stem}{separate}-{noun}")), title, share);
    }

    /// What clay in crumbs takes from the least silt and gives to the most clay.
    fn crumbs(&self, rows: &mut Rows) {
        let Some(crumbs) = &self.jar.crumbs else { return };
        let [silt, most_silt, clay] = ["as-settled.silt-low", "silt-high", "as-settled.clay-high"].map(|noun| {
            let path = self.path(noun);
            (rows.value::<Ratio>(&path).unwrap_or(Ratio::ZERO), path)
        });
        let less = soil::silt_without_crumbs(silt.0, crumbs.value).from("silt", silt.1);
        let title = self.title("least silt by dry mass, by");
        rows.add(self.path("silt-low"), title, less.from("crumbs", crumbs.path.as_str()));
        let more =
            soil::clay_with_crumbs(clay.0, most_silt.0, crumbs.value).from("clay", clay.1).from("silt", most_silt.1);
        let title = self.title("greatest clay by dry mass, by");
        rows.add(self.path("clay-high"), title, more.from("crumbs", crumbs.path.as_str()));
    }
}
