//! Tries decks.
#![allow(clippy::all, clippy::pedantic, clippy::unwrap_used, clippy::disallowed_methods)]
fn main() {
    if std::env::args().len() > 1 {
        let text = std::fs::read_to_string("builds/tansy-bank/tansy-bank.loam.toml").unwrap();
        for _ in 0..5 { let start = std::time::Instant::now();
        let a = engine::answers::answers(&engine::answers::Inputs { build: text.as_bytes(), system: None }).unwrap(); println!("{:?}", start.elapsed());
        if a.rows.iter().count() == 0 { return }
        }
        let c = engine::answers::compute(&engine::answers::Inputs { build: text.as_bytes(), system: None }).unwrap();
        let a = c.into_answers();
        for r in a.rows.matching("roof.deck.*").chain(a.rows.matching("roof.places.*.shim")).chain(a.rows.matching("roof.deck.*.*.*")) { println!("{} = {} | {}", r.path, r.shown(a.system), r.title); }
        println!("{:?}", a.deck.unwrap().eave.iter().map(|l| (l.in_m()*1000.0) as i64).collect::<Vec<_>>());
        return;
    }
    let text = std::fs::read_to_string("builds/tansy-bank/tansy-bank.loam.toml").unwrap();
    for bedding in ["ruled", "flat"] {
        for edge in ["0.95 m", "1.0 m", "1.1 m", "1.2 m", "1.3 m", "1.4 m", "1.5 m"] {
            let text = text.replace("bedding = \"flat\"", &format!("bedding = \"{bedding}\"")).replace("edge = \"1.1 m\"", &format!("edge = \"{edge}\""));
            let start = std::time::Instant::now();
            let a = engine::answers::answers(&engine::answers::Inputs { build: text.as_bytes(), system: None });
            let took = start.elapsed();
            match a {
                Ok(a) => {
                    print!("{bedding} {edge} {took:?}");
                    for p in ["roof.area", "roof.deck.steepest", "roof.deck.twist", "roof.deck.pull", "roof.deck.fasteners", "roof.deck.shim-volume", "roof.deck.standing-water"] {
                        let r = a.rows.find(p).map(|r| r.shown(a.system));
                        print!(" {}={}", p.rsplit('.').next().unwrap(), r.unwrap_or_default());
                    }
                    let shims: Vec<String> = a.rows.matching("roof.places.*.shim").map(|r| r.shown(a.system)).collect();
                    println!(" {}", shims.join(" "));
                }
                Err(p) => println!("{bedding} {edge} {}", p.all()[0]),
            }
        }
    }
}
