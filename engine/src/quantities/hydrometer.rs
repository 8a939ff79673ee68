//! Rows of a hydrometer: what each reading says of the grains still afloat, and how far the shares that follow may be off.

use crate::earth::soil;
use crate::house::{Grading, Hydrometer, HydrometerReading};
use crate::reason::Answer;
use crate::row::Rows;
use crate::units::Ratio;

pub(super) fn walk(grading: &Grading, read: &Hydrometer, rows: &mut Rows) {
    let of = format!("the hydrometer of {}, grading {}", spoken(&grading.of), spoken(&grading.name));
    rows.known(format!("dry soil in the litre of {of}"), &read.dry);
    rows.known(format!("reading in clear water with the same salt of {of}"), &read.blank);
    if let Some(meniscus) = &read.meniscus {
        rows.known(format!("divisions that the brim of water hides, of {of}"), meniscus);
    }
    rows.known(format!("divisions that a reading may be off, of {of}"), &read.off);
    rows.known(format!("density of the grains of {of}"), &read.grain);
    rows.known(format!("temperature of the water of {of}"), &read.water);
    // The first reading comes first: a later one may be taken for it.
    for reading in read.readings.iter().rev() {
        Read { grading, read, reading }.walk(rows);
    }
}

fn spoken(name: &str) -> String {
    name.replace('-', " ")
}

/// How far sand, silt and clay may be off: by the readings, or as the grading may, whichever is more. Where the curve does not reach 2 mm
/// they say nothing of it.
pub(super) fn error(grading: &Grading, read: &Hydrometer, rows: &mut Rows) -> Ratio {
    let path = |noun: &str| grading.path(noun);
    let of = format!("in {}, grading {}", spoken(&grading.of), spoken(&grading.name));
    let Some(all) = rows.value::<Ratio>(&path("finer.sand")) else {
        return rows.known(format!("how far sand, silt and clay may be off {of}"), &grading.error);
    };
    let off = soil::off_by_reading(read.off.value, read.grain.value, read.dry.value, read.share_through(), all)
        .from("off", read.off.path.as_str())
        .from("grain density", read.grain.path.as_str())
        .from("dry in litre", read.dry.path.as_str())
        .from("finer than stones", path("finer.sand"));
    let off = match &read.through {
        Some(through) => off.from("share through", through.path.as_str()),
        None => off.without("share through"),
    };
    let words = format!("how far sand, silt and clay may be off by the hydrometer's readings {of}");
    if off.value > grading.error.value {
        return rows.add(path("error"), words, off);
    }
    rows.add(path("error-read"), words, off);
    rows.known(
        format!("how far sand, silt and clay may be off, no less than by the readings alone, {of}"),
        &grading.error,
    )
}

/// One reading.
struct Read<'a> {
    grading: &'a Grading,
    read: &'a Hydrometer,
    reading: &'a HydrometerReading,
}

impl Read<'_> {
    fn path(&self, noun: &str) -> String {
        self.grading.path(&format!("hydrometer.readings.{}.{noun}", self.reading.name))
    }

    fn title(&self, words: &str) -> String {
        let (name, of) = (&self.reading.name, spoken(&self.grading.of));
        format!("{words} reading {name} of {of}, grading {}", spoken(&self.grading.name))
    }

    fn walk(&self, rows: &mut Rows) {
        let Read { read, reading, .. } = self;
        let after = rows.known(self.title("time of"), &reading.after);
        let scale = rows.known(self.title("scale at"), &reading.reading);
        if let Some(water) = &reading.water {
            rows.known(self.title("temperature of the water at"), water);
        }
        let water = read.water_of(reading);
        let temperature = |answer: Answer<f64>| answer.with("temperature", water.value, water.path.as_str());
        let corrected = Answer { value: reading.corrected, ..soil::corrected(scale, read.blank.value, 0.0) }
            .from("reading", reading.reading.path.as_str())
            .from("blank", read.blank.path.as_str())
            .without("correction");
        rows.add(self.path("corrected"), self.title("soil alone at"), temperature(corrected));
        let size = soil::grain_afloat(after, read.grain.value, reading.size)
            .from("time", reading.after.path.as_str())
            .from("grain density", read.grain.path.as_str())
            .with("temperature", water.value, water.path.as_str());
        let size = match &read.meniscus {
            None => size.with("corrected reading", reading.corrected, self.path("corrected")),
            Some(meniscus) => size.with("reading", scale, reading.reading.path.as_str()).with(
                "meniscus",
                meniscus.value,
                meniscus.path.as_str(),
            ),
        };
        rows.add(self.path("size"), self.title("largest grain still afloat at"), size);
        let share = read.share_through();
        let finer = soil::finer_of_whole(reading.corrected, read.grain.value, read.dry.value, share)
            .from("reading", self.path("corrected"))
            .from("grain density", read.grain.path.as_str())
            .from("dry in litre", read.dry.path.as_str());
        let finer = match &read.through {
            Some(through) => finer.from("share through", through.path.as_str()),
            None => finer.without("share through"),
        };
        let Some(beside) = &reading.beside else {
            rows.add(self.path("finer"), self.title("finer than the grain of"), finer);
            return;
        };
        rows.add(self.path("finer-read"), self.title("finer than the grain, as it reads, of"), finer);
        let taken = soil::as_beside(reading.finer).from("beside", beside.as_str());
        let words = "finer than the grain (within what it may be off, taken for the point beside it) of";
        rows.add(self.path("finer"), self.title(words), taken);
    }
}
