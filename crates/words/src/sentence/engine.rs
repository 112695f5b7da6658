//! Changes without a number of their own: the power shut off, the brakes put on, the speed rising or falling.

use crate::noun::Ref;
use crate::reader::Reader;
use crate::story::Fact;
use exact::Dimension;
use model::Role;

impl Reader<'_> {
    /// Power shut off, brakes applied, the speed growing or falling: what changes the motion without a number of its own.
    pub(super) fn engine_off(&mut self, i: usize) -> Option<usize> {
        if let Some(e) = self.phrase(i, "the power|engine|motor is|are then? shut|switched|cut|turned off") {
            if !self.story.forces.iter().any(|f| f.role == Role::Driving) {
                self.story.engine_off = true;
                self.told(i, e, "no driving force any more");
                return Some(e);
            }
            return None;
        }
        // The brakes of the car, but not those of the trailer, are applied
        let start = self.phrase(i, "the|its|his|her|all? brakes").or_else(|| {
            let np_end = (i..i + 5).find(|&k| self.w(k) == "'s")?;
            self.phrase(np_end, "'s brakes")
        });
        if let Some(mut e) = start {
            if let Some(e2) = self
                .phrase(e, "of the|a? car|lorry|engine|locomotive|van|tractor|truck|vehicle|train|tram|bus")
            {
                e = e2;
            }
            if let Some(e2) = self.phrase(
                e,
                ",? but not those|the of? the|a? trailer|caravan|truck|wagon|mixer|trucks|wagons|brakes? ,?",
            ) {
                e = e2;
            }
            if let Some(e2) = self.phrase(e, "alone|only") {
                e = e2;
            }
            let e2 = self.phrase(e, "is|are|were|being then? applied|put on?")?;
            let span = self.span(i, e2);
            self.told(i, e2, "braking: a force against the motion");
            self.fact(Vec::new(), span, Fact::Slowing);
            let driver = self.driver();
            // The braking force is there; its size may be told, asked or found.
            if driver.is_some() {
                self.force_on(model::Role::Braking, driver, span);
            }
            self.about = driver.map(|d| Ref::Bodies(vec![d]));
            return Some(e2);
        }
        // its speed is increasing at a constant rate
        if let Some(mut e) = self.phrase(i, "the|its|their? speed|velocity") {
            if let Some(e2) = self.phrase(e, "of") {
                let np = self.np(e2)?;
                e = np.end;
            }
            let range = self.phrase(e, "falls|drops|rises|increases|decreases|changes|is|are? reduced|increased? uniformly|steadily|constantly? from");
            if let Some(k) = range {
                let (a, e1) = self.amount(k, true)?;
                let e2 = self.phrase(e1, "to")?;
                let (b, e3) = self.amount(e2, true)?;
                if b.dimension != Some(Dimension::SPEED) {
                    return None;
                }
                let mut a = a;
                if a.dimension.is_none() {
                    a.dimension = b.dimension;
                }
                let (from, to) = (self.given(&a), self.given(&b));
                let span = self.span(i, e3);
                self.told(i, e3, "the speeds at the start and at the end");
                self.fact(self.latest.clone(), span, Fact::StartSpeed(from));
                self.fact(self.latest.clone(), span, Fact::EndSpeed(to));
                return Some(e3);
            }
            let e2 = self.phrase(e, "is steadily|then|now? increasing|decreasing|rising|falling|growing")?;
            let slower = matches!(self.w(e2.wrapping_sub(1)), "decreasing" | "falling");
            let e3 = self.phrase(e2, "at a constant|steady|uniform rate").unwrap_or(e2);
            let span = self.span(i, e3);
            self.fact(self.latest.clone(), span, if slower { Fact::Slowing } else { Fact::Speeding });
            self.told(i, e3, "whether it speeds up or slows down");
            return Some(e3);
        }
        // To it is tied a fine thread ...
        let e = self.phrase(i, "to it is|are tied|attached|fastened|fixed|joined")?;
        let body = self.latest.first().copied()?;
        let np = self.np(e)?;
        let Ref::Links(l) = np.what.clone() else { return None };
        for x in l {
            self.add_end(x, body);
        }
        self.told(i, np.end, "they move together while the link holds");
        self.set_about(np.what.clone());
        Some(self.after_np(&np.what, np.end))
    }
}
