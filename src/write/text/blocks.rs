//! Which findings of one assembly make one block: one stands beside another if its rule says so.

use crate::sheet::Finding;

/// A finding with those that stand beside it.
pub(super) struct Block {
    /// The finding whose block it is.
    pub head: Finding,
    /// Findings shown within it.
    pub beside: Vec<Finding>,
}

impl Block {
    /// All its findings, the head first.
    pub(super) fn findings(&self) -> impl Iterator<Item = &Finding> {
        std::iter::once(&self.head).chain(&self.beside)
    }

    /// Its rules, each once for every finding.
    pub(super) fn rules(&self) -> impl Iterator<Item = (&str, usize)> {
        self.findings().map(|finding| (finding.rule.as_str(), 1))
    }
}

/// Blocks of findings of one assembly, in their order. Each comes with its number among the
/// assembly's findings, and goes on with that of the block's head.
pub(super) fn blocks(findings: Vec<(usize, Finding)>) -> Vec<(usize, Block)> {
    let roots: Vec<usize> = (0..findings.len())
        .map(|at| root(at, &findings).unwrap_or(at))
        .collect();
    let mut blocks: Vec<(usize, usize, Block)> = Vec::new();
    let mut beside: Vec<(usize, Finding)> = Vec::new();
    for (at, ((nth, finding), root)) in findings.into_iter().zip(roots).enumerate() {
        if root == at {
            let head = Block {
                head: finding,
                beside: Vec::new(),
            };
            blocks.push((at, nth, head));
        } else {
            beside.push((root, finding));
        }
    }
    for (root, finding) in beside {
        if let Some((.., block)) = blocks.iter_mut().find(|(at, ..)| *at == root) {
            block.beside.push(finding);
        }
    }
    blocks
        .into_iter()
        .map(|(_, nth, block)| (nth, block))
        .collect()
}

/// The finding in whose block another one stands in the end; `None` if it has a block of its own,
/// or hosts go round in a circle.
fn root(of: usize, findings: &[(usize, Finding)]) -> Option<usize> {
    let mut at = of;
    for _ in findings {
        match host(at, findings) {
            Some(host) if host != at => at = host,
            _ => return Some(at),
        }
    }
    None
}

fn host(of: usize, findings: &[(usize, Finding)]) -> Option<usize> {
    let (_, guest) = findings.get(of)?;
    let rule = guest.beside.as_ref()?;
    findings.iter().position(|(_, host)| {
        host.rule == *rule
            && host.assembly_index == guest.assembly_index
            && (host.operation.is_none() || host.operation == guest.operation)
    })
}
