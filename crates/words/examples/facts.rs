#![allow(missing_docs, dead_code)]
#[path = "../tests/writing/facts.rs"]
mod facts;
fn main() {
    for file in std::env::args().skip(1) {
        let text = std::fs::read_to_string(&file).unwrap_or_default();
        let r = words::read(&text);
        println!("== {file} {}", r.is_sound());
        if std::env::var("TEXT").is_ok() { println!("{text}"); }
        for b in &r.situation.bodies { println!("  body name {:?} label {:?} {:?} surface {:?}", b.name, b.label, b.form, b.surface.as_ref().map(|s| &s.name)); }
        for b in &r.situation.links { println!("  link {:?} contact {}", b.name, b.is_contact); }
        for b in &r.situation.pulleys { println!("  pulley {:?}", b.name); }
        for b in &r.situation.actions { println!("  action {:?}", b.name); }
        for f in facts::facts(&r.situation) { println!("  {f}"); }
        for b in &r.situation.claims { println!("  claim {:?}", b); }
        for b in &r.situation.asks { println!("  ask {:?}", b.phrase); }
    }
}
